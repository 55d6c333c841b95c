using Bridge.Motion;

namespace Bridge.Cli;

/// <summary>The angle between X and Y, in words.</summary>
internal static class SquarenessWords
{
    /// <summary>Tells the angle, how sure it is, and what to do about it.</summary>
    public static void Tell(Report report, Squareness square)
    {
        var degrees = square.Degrees;
        report.Line(FormattableString.Invariant(
            $"From X to Y there are {90 - degrees.Value:0.##} degrees, give or take {degrees.Expanded:0.##} (two standard uncertainties)."));
        var way = degrees.Value > 0 ? "towards" : "away from";
        report.Line(Math.Abs(degrees.Value) <= degrees.Expanded
            ? "That is a right angle as far as this can tell."
            : FormattableString.Invariant($"Over 100 mm Y leans {Math.Abs(square.MmIn100):0.##} mm {way} the far end of X: turn it back by that."));
    }
}

using SkiaSharp;

namespace Bridge.Planning;

/// <summary>
/// What colours become: a colour proper, whose largest and least of red, green and blue are 96 and more apart, is head b's; of the others, black
/// to white, what is darker than the threshold is head a's and what is lighter covers what lies below. Less than half opaque is not there.
/// </summary>
internal sealed class SvgInks(string name, ShapeOptions options, SvgCautions cautions)
{
    /// <summary>How far the largest and the least of red, green and blue are apart in what counts as a colour.</summary>
    public const int LeastColour = 96;

    private const byte HalfOpaque = 128;
    private const byte MiddleGrey = 128;

    private bool _isTold;

    /// <summary>The ink of a colour; null for none.</summary>
    public Ink? Of(SKColor? paint)
    {
        if (paint is not { } color || color.Alpha < HalfOpaque)
            return null;
        if (Math.Max(color.Red, Math.Max(color.Green, color.Blue)) - Math.Min(color.Red, Math.Min(color.Green, color.Blue)) >= LeastColour)
            return OfColoured();
        // Luma of ITU-R BT.709
        var grey = (2126 * color.Red + 7152 * color.Green + 722 * color.Blue + 5000) / 10_000;
        return grey < (options.Threshold ?? MiddleGrey) ? Ink.Dark : Ink.Light;
    }

    private Ink OfColoured()
    {
        if (options.HasHeadB)
            return Ink.Coloured;
        if (!_isTold)
            cautions.Say($"{name}: what is in colour is worked by head a, since there is no head b.");
        _isTold = true;
        return Ink.Dark;
    }
}

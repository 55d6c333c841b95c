namespace Bridge.Wire.Tests;

/// <summary>
/// The textbook formulas for what a link makes of a line's capacity: A. Leon-Garcia and I. Widjaja, Communication Networks, section 5.2.
/// Frames are damaged one by one, by a chance; answers never.
/// </summary>
/// <param name="Frame">The length of a frame, in any unit; lengths below are in the same.</param>
/// <param name="Overhead">What of it is not counted as carried.</param>
/// <param name="Answer">The length of an answer.</param>
/// <param name="Rate">Units that the line takes in a second.</param>
/// <param name="Reaction">From the end of a frame to the beginning of its answer, and from the end of that to its arrival: delays and thinking.</param>
internal sealed record LinkFormulas(double Frame, double Overhead, double Answer, double Rate, TimeSpan Reaction)
{
    /// <summary>Frames that fit into a round trip, the frame itself counted: 1 + 2a.</summary>
    public double FramesPerRoundTrip => 1 + Answer / Frame + Reaction.TotalSeconds * Rate / Frame;

    /// <summary>The least window that fills the line: the round trip, and the message that shows a gap.</summary>
    public int LeastWindow => Math.Min(SerialNumber.MaxStep, (int)Math.Ceiling(FramesPerRoundTrip) + 1);

    private double Carried => 1 - Overhead / Frame;

    /// <summary>The chance that a frame is damaged where bits are, one by one, by a chance.</summary>
    public static double FrameErrors(double bitErrors, double bits) => 1 - Math.Pow(1 - bitErrors, bits);

    /// <summary>One message at a time: (1 - P) / (1 + 2a).</summary>
    public double OneAtATime(double errors) => Carried * (1 - errors) / FramesPerRoundTrip;

    /// <summary>Go-back-N: (1 - P) / (1 + (N - 1) P), times N / (1 + 2a) where the window N does not fill the round trip.</summary>
    public double GoBack(int window, double errors) => Carried * Filled(window) * (1 - errors) / (1 + (window - 1) * errors);

    /// <summary>Selective repeat: 1 - P, times N / (1 + 2a) where the window N does not fill the round trip.</summary>
    public double SelectiveRepeat(int window, double errors) => Carried * Filled(window) * (1 - errors);

    private double Filled(int window) => Math.Min(1, window / FramesPerRoundTrip);
}

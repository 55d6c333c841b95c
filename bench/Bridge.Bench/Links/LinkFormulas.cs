namespace Bridge.Bench;

/// <summary>
/// The textbook formulas for what a link makes of a line's capacity: A. Leon-Garcia and I. Widjaja, Communication Networks, section 5.2.
/// Frames are damaged one by one, by a chance; answers never.
/// </summary>
internal static class LinkFormulas
{
    /// <summary>Octets in a second at 500 000 baud.</summary>
    public const double OctetsPerSecond = 50_000;

    /// <summary>Frames that fit into a round trip, the frame itself counted: 1 + 2a.</summary>
    public static double FramesPerRoundTrip(TimeSpan delay)
    {
        var (message, status) = LinkTrial.Lengths;
        return (message + status + delay.TotalSeconds * OctetsPerSecond) / message;
    }

    /// <summary>The least window that fills the line: the round trip, and the message that shows a gap.</summary>
    public static int WindowFor(TimeSpan delay) => Math.Min(127, (int)Math.Ceiling(FramesPerRoundTrip(delay)) + 1);

    /// <summary>One message at a time: (1 - P) / (1 + 2a).</summary>
    public static double OneAtATime(TimeSpan delay, double errors) => (1 - errors) / FramesPerRoundTrip(delay);

    /// <summary>Go-back-N: (1 - P) / (1 + (N - 1) P), times N / (1 + 2a) where the window N does not fill the round trip.</summary>
    public static double GoBack(int window, TimeSpan delay, double errors) =>
        Math.Min(1, window / FramesPerRoundTrip(delay)) * (1 - errors) / (1 + (window - 1) * errors);
}

namespace Bridge.Jobs;

/// <summary>How long the two sides wait for one another.</summary>
/// <param name="Answer">How long a device may take to answer before it counts as gone, 0.1 to 60 s.</param>
/// <param name="LineSilence">How long a moving device may hear nothing before it stops and holds, 0.1 to 10 s.</param>
/// <param name="Reference">How long an axis may look for its endstop, 1 to 600 s.</param>
public sealed record TimeOuts(TimeSpan Answer, TimeSpan LineSilence, TimeSpan Reference);

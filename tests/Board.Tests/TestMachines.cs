using Bridge.Jobs;

namespace Board.Tests;

/// <summary>Small machines that are quick to emulate.</summary>
internal static class TestMachines
{
    public static readonly TimeSpan LineSilence = TimeSpan.FromSeconds(0.5);

    private static readonly Axis Short = new()
    {
        Cells = 16, PitchMm = 1, StepsPerMm = 80, TopSpeedMmS = 100, AccelMmS2 = 3000, ReferenceSpeedMmS = 40,
        Endstop = AxisEnd.Min, EndstopGapMm = 1, BacklashMm = 0.1,
    };

    /// <summary>Two pens on a carriage, the second beside the first; Y's endstop is at the far end.</summary>
    public static Machine Plotter { get; } = Of(Pen(0, 0), Pen(-2, 1));

    /// <summary>Two heads that make dots, on three axes.</summary>
    public static Machine Gantry { get; } = Of(Dot(0, 0), Dot(-1, 1)) with
    {
        Z = Short with
        {
            Cells = 4, PitchMm = 0.5, StepsPerMm = 400, TopSpeedMmS = 20, AccelMmS2 = 500, ReferenceSpeedMmS = 10, BacklashMm = 0, EndstopGapMm = 0.5,
        },
    };

    /// <summary>A pen that passes many cells in the time that is planned ahead of its steps; no play.</summary>
    public static Machine Fine { get; } = Of(Pen(0, 0), Pen(0, 0)) with
    {
        Width = RecordWidth.Eight, X = Short with { Cells = 250, PitchMm = 0.1, BacklashMm = 0 },
    };

    private static HeadTool.Pen Pen(double x, double y) => new(TimeSpan.FromSeconds(0.06), TimeSpan.FromSeconds(0.05), x, y);

    private static HeadTool.Dot Dot(double x, double y) => new(TimeSpan.FromSeconds(0.02), x, y);

    private static Machine Of(HeadTool a, HeadTool b) => new()
    {
        Name = "test", Width = RecordWidth.Four, StoreBytes = 256, MayOverprint = true, OverhangCells = 0,
        X = Short, Y = Short with { Endstop = AxisEnd.Max, TopSpeedMmS = 80, BacklashMm = 0.15 }, Z = null, A = a, B = b,
        HeadChange = TimeSpan.FromSeconds(0.05), Baud = 500_000,
        TimeOuts = new TimeOuts(TimeSpan.FromSeconds(2), LineSilence, TimeSpan.FromSeconds(60)), Digest = default,
    };
}

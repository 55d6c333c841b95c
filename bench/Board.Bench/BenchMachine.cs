using Bridge.Jobs;

namespace Board.Bench;

/// <summary>A machine whose steps come as fast as a figure asks for. One step is 1/80 mm.</summary>
internal static class BenchMachine
{
    private const double StepsPerMm = 80;
    private const double Acceleration = 240_000; // steps/s2: 3000 mm/s2

    /// <summary>Sixteen cells of 800 steps along X and Y, at a top speed in steps/s.</summary>
    public static Machine Of(double stepsPerSecond) => new()
    {
        Name = "bench", Width = RecordWidth.Four, StoreBytes = 256, MayOverprint = true, OverhangCells = 0,
        X = Axis(stepsPerSecond), Y = Axis(stepsPerSecond), Z = null,
        A = new HeadTool.Dot(TimeSpan.FromMilliseconds(1), 0, 0), B = null,
        HeadChange = TimeSpan.Zero, Baud = 500_000,
        TimeOuts = new TimeOuts(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(5), TimeSpan.FromSeconds(60)), Digest = default,
    };

    private static Axis Axis(double stepsPerSecond) => new()
    {
        Cells = 16, PitchMm = 10, StepsPerMm = StepsPerMm, TopSpeedMmS = stepsPerSecond / StepsPerMm, AccelMmS2 = Acceleration / StepsPerMm,
        ReferenceSpeedMmS = 40, Endstop = AxisEnd.Min, EndstopGapMm = 1, BacklashMm = 0,
    };
}

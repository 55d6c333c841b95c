namespace Bridge.Jobs.Tests;

/// <summary>Machines for tests: plain figures, changed with `with`.</summary>
internal static class Machines
{
    public static Machine Gantry { get; } = new()
    {
        Name = "test gantry",
        Width = RecordWidth.Four,
        StoreBytes = 256,
        MayOverprint = false,
        OverhangCells = 1,
        X = AxisOf(16),
        Y = AxisOf(16),
        Z = AxisOf(16),
        A = new HeadTool.Dot(TimeSpan.FromSeconds(0.5), 0, 0),
        B = new HeadTool.Dot(TimeSpan.FromSeconds(0.5), 0, 0),
        Baud = 500_000,
        TimeOuts = new TimeOuts(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(60)),
        Digest = MachineDigest.Of("test gantry"u8),
    };

    public static Machine Plotter { get; } = Gantry with
    {
        Name = "test plotter",
        MayOverprint = true,
        Z = null,
        A = new HeadTool.Pen(TimeSpan.FromSeconds(0.2), TimeSpan.FromSeconds(0.2), 0, 0),
        B = null,
    };

    private static Axis AxisOf(int cells) => new()
    {
        Cells = cells,
        PitchMm = 5,
        StepsPerMm = 80,
        TopSpeedMmS = 50,
        AccelMmS2 = 200,
        ReferenceSpeedMmS = 5,
        Endstop = AxisEnd.Min,
        EndstopGapMm = 3,
        BacklashMm = 0,
    };
}

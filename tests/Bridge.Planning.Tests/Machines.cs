using Bridge.Jobs;

namespace Bridge.Planning.Tests;

internal static class Machines
{
    public static readonly Machine Desktop = Make(RecordWidth.Four, 16, 16, 16, 256);

    public static Machine Make(RecordWidth width, int x, int y, int layers, int storeBytes, bool hasTwoHeads = true) => new()
    {
        Name = "test gantry",
        Width = width,
        StoreBytes = storeBytes,
        MayOverprint = false,
        OverhangCells = 1,
        X = AxisOf(x),
        Y = AxisOf(y),
        Z = layers > 1 ? AxisOf(layers) : null,
        A = new HeadTool.Dot(TimeSpan.FromSeconds(0.1), 0, 0),
        B = hasTwoHeads ? new HeadTool.Dot(TimeSpan.FromSeconds(0.1), 0, 0) : null,
        Baud = 500_000,
        TimeOuts = new TimeOuts(TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(10)),
        Digest = default,
    };

    private static Axis AxisOf(int cells) => new()
    {
        Cells = cells,
        PitchMm = 5,
        StepsPerMm = 80,
        TopSpeedMmS = 100,
        AccelMmS2 = 500,
        ReferenceSpeedMmS = 10,
        Endstop = AxisEnd.Min,
        EndstopGapMm = 1,
        BacklashMm = 0,
    };
}

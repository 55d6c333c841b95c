using Bridge.Jobs;

namespace Contract.Tests;

/// <summary>Small, quick machines.</summary>
internal static class ContractMachines
{
    public static readonly TimeSpan LineTimeout = TimeSpan.FromSeconds(0.3);

    /// <summary>16 x 16 cells, two pens at different places.</summary>
    public static Machine Plotter { get; } = Of(Pen(0, 0), Pen(2, -1));

    /// <summary>16 x 16 cells, one pen, which takes its time to be lowered.</summary>
    public static Machine OnePen { get; } = Of(new HeadTool.Pen(TimeSpan.FromSeconds(0.3), TimeSpan.FromSeconds(0.04), 0, 0), null);

    /// <summary>16 x 16 x 4 cells, two dot heads.</summary>
    public static Machine Dots { get; } = Of(Dot(0.02, 0, 0), Dot(0.03, 1, 1),
        AxisOf(4, 2) with { Endstop = AxisEnd.Max, StepsPerMm = 200, TopSpeedMmS = 20, AccelMmS2 = 1000, ReferenceSpeedMmS = 15, BacklashMm = 0 });

    public static HeadTool Pen(double x, double y) => new HeadTool.Pen(TimeSpan.FromSeconds(0.06), TimeSpan.FromSeconds(0.04), x, y);

    public static HeadTool Dot(double seconds, double x, double y) => new HeadTool.Dot(TimeSpan.FromSeconds(seconds), x, y);

    public static Axis AxisOf(int cells, double pitch) => new()
    {
        Cells = cells, PitchMm = pitch, StepsPerMm = 40, TopSpeedMmS = 200, AccelMmS2 = 6000, ReferenceSpeedMmS = 60,
        Endstop = AxisEnd.Min, EndstopGapMm = 3, BacklashMm = 0.2,
    };

    public static Machine Of(HeadTool a, HeadTool? b, Axis? z = null, RecordWidth? width = null, int cells = 16) => new()
    {
        Name = "contract", Width = width ?? RecordWidth.Four, StoreBytes = 256, MayOverprint = true, OverhangCells = 0,
        X = AxisOf(cells, 2), Y = AxisOf(cells, 2) with { Endstop = AxisEnd.Max }, Z = z, A = a, B = b,
        HeadChange = TimeSpan.FromSeconds(0.05), Baud = 500_000,
        TimeOuts = new TimeOuts(TimeSpan.FromSeconds(2), LineTimeout, TimeSpan.FromSeconds(60)), Digest = default,
    };

    public static Axis AxisOf(this Machine machine, AxisName name) => name switch { AxisName.X => machine.X, AxisName.Y => machine.Y, _ => machine.Z! };
}

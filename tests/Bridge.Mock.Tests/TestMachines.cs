using Bridge.Jobs;
using Bridge.Wire;
using Axis = Bridge.Jobs.Axis;

namespace Bridge.Mock.Tests;

/// <summary>Two small machines, and the messages that set a device up for one.</summary>
internal static class TestMachines
{
    public static readonly TimeSpan LineTimeout = TimeSpan.FromSeconds(0.5);

    public static Machine Plotter { get; } = Of(
        new HeadTool.Pen(TimeSpan.FromSeconds(0.2), TimeSpan.FromSeconds(0.1), 0, 0),
        new HeadTool.Pen(TimeSpan.FromSeconds(0.2), TimeSpan.FromSeconds(0.1), 2, -1));

    public static Machine GantryOfDots { get; } = Of(
        new HeadTool.Dot(TimeSpan.FromSeconds(0.05), 0, 0), new HeadTool.Dot(TimeSpan.FromSeconds(0.08), 1, 1),
        AxisOf(16, 8) with { Endstop = AxisEnd.Max, StepsPerMm = 400, TopSpeedMmS = 20, ReferenceSpeedMmS = 4, BacklashMm = 0 });

    public static Axis AxisOf(int cells, double pitch) => new()
    {
        Cells = cells, PitchMm = pitch, StepsPerMm = 80, TopSpeedMmS = 100, AccelMmS2 = 800, ReferenceSpeedMmS = 20,
        Endstop = AxisEnd.Min, EndstopGapMm = 4, BacklashMm = 0.2,
    };

    public static Machine Of(HeadTool a, HeadTool? b, Axis? z = null, RecordWidth? width = null, int cells = 16) => new()
    {
        Name = "test", Width = width ?? RecordWidth.Four, StoreBytes = 256, MayOverprint = true, OverhangCells = 0,
        X = AxisOf(cells, 5), Y = AxisOf(cells, 5) with { Endstop = AxisEnd.Max }, Z = z, A = a, B = b,
        HeadChange = TimeSpan.FromSeconds(0.3), Baud = 500_000,
        TimeOuts = new TimeOuts(TimeSpan.FromSeconds(2), LineTimeout, TimeSpan.FromSeconds(60)), Digest = default,
    };

    public static SetMachine SetMachineOf(Machine machine) => new()
    {
        AxisBits = (byte)machine.Width.AxisBits, Axes = (byte)(machine.Z is null ? 2 : 3), Heads = (byte)(machine.B is null ? 1 : 2),
        LineTimeoutMs = (ushort)machine.TimeOuts.LineSilence.TotalMilliseconds, HeadChangeMs = (ushort)machine.HeadChange.TotalMilliseconds,
        CellsX = (ushort)machine.X.Cells, CellsY = (ushort)machine.Y.Cells, Layers = (ushort)machine.Grid.Layers, Digest = default,
    };

    public static IEnumerable<SetAxis> SetAxesOf(Machine machine) =>
        new[] { machine.X, machine.Y, machine.Z }.OfType<Axis>().Select((axis, index) => new SetAxis
        {
            Axis = (byte)index,
            EndstopAtMax = axis.Endstop == AxisEnd.Max,
            StepsPerCellQ16 = (uint)Math.Round(axis.PitchMm * axis.StepsPerMm * 65536),
            TopSpeed = (uint)Math.Round(axis.TopSpeedMmS * axis.StepsPerMm),
            Acceleration = (uint)Math.Round(axis.AccelMmS2 * axis.StepsPerMm),
            ReferenceSpeed = (uint)Math.Round(axis.ReferenceSpeedMmS * axis.StepsPerMm),
            EndstopGapSteps = (uint)Math.Round(axis.EndstopGapMm * axis.StepsPerMm),
            BacklashSteps = (ushort)Math.Round(axis.BacklashMm * axis.StepsPerMm),
        });

    public static IEnumerable<SetHead> SetHeadsOf(Machine machine) =>
        new[] { machine.A, machine.B }.OfType<HeadTool>().Select((tool, index) => new SetHead
        {
            Head = (byte)index,
            Kind = tool is HeadTool.Dot ? HeadKind.Dot : HeadKind.Pen,
            FirstMs = (ushort)(tool is HeadTool.Dot dot ? dot.PerCell : ((HeadTool.Pen)tool).Lower).TotalMilliseconds,
            SecondMs = (ushort)(tool is HeadTool.Pen pen ? pen.Lift.TotalMilliseconds : 0),
            OffsetXSteps = (int)Math.Round(tool.OffsetXMm * machine.X.StepsPerMm),
            OffsetYSteps = (int)Math.Round(tool.OffsetYMm * machine.Y.StepsPerMm),
        });
}

using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>A machine as the messages that tell it to a board: lengths in steps, times in milliseconds.</summary>
public static class SetupMessages
{
    /// <summary>The machine as a whole.</summary>
    public static SetMachine OfMachine(Machine machine) => new()
    {
        AxisBits = (byte)machine.Width.AxisBits,
        Axes = (byte)(machine.Z is null ? 2 : 3),
        Heads = (byte)(machine.B is null ? 1 : 2),
        LineTimeoutMs = Milliseconds(machine.TimeOuts.LineSilence),
        HeadChangeMs = Milliseconds(machine.HeadChange),
        CellsX = (ushort)machine.X.Cells,
        CellsY = (ushort)machine.Y.Cells,
        Layers = (ushort)machine.Grid.Layers,
        Digest = DigestPrefix.Of(machine.Digest.ToBytes()),
    };

    /// <summary>Each axis the machine has: X, Y and, on a machine of layers, Z.</summary>
    public static IEnumerable<SetAxis> OfAxes(Machine machine)
    {
        yield return OfAxis(0, machine.X);
        yield return OfAxis(1, machine.Y);
        if (machine.Z is { } z)
            yield return OfAxis(2, z);
    }

    /// <summary>Each head the machine has.</summary>
    public static IEnumerable<SetHead> OfHeads(Machine machine)
    {
        yield return OfHead(0, machine.A, machine);
        if (machine.B is { } b)
            yield return OfHead(1, b, machine);
    }

    internal static SetAxis OfAxis(byte number, Axis axis) => new()
    {
        Axis = number,
        EndstopAtMax = axis.Endstop == AxisEnd.Max,
        StepsPerCellQ16 = (uint)Math.Round(axis.PitchMm * axis.StepsPerMm * 65536),
        TopSpeed = AtLeastOne(axis.TopSpeedMmS * axis.StepsPerMm),
        Acceleration = AtLeastOne(axis.AccelMmS2 * axis.StepsPerMm),
        ReferenceSpeed = AtLeastOne(axis.ReferenceSpeedMmS * axis.StepsPerMm),
        EndstopGapSteps = AtLeastOne(axis.EndstopGapMm * axis.StepsPerMm),
        BacklashSteps = (ushort)Math.Min(ushort.MaxValue, Math.Round(axis.BacklashMm * axis.StepsPerMm)),
    };

    private static SetHead OfHead(byte number, HeadTool tool, Machine machine) => new()
    {
        Head = number,
        Kind = tool is HeadTool.Pen ? HeadKind.Pen : HeadKind.Dot,
        FirstMs = Milliseconds(tool is HeadTool.Pen pen ? pen.Lower : ((HeadTool.Dot)tool).PerCell),
        SecondMs = tool is HeadTool.Pen { Lift: var lift } ? Milliseconds(lift) : (ushort)0,
        OffsetXSteps = (int)Math.Round(tool.OffsetXMm * machine.X.StepsPerMm),
        OffsetYSteps = (int)Math.Round(tool.OffsetYMm * machine.Y.StepsPerMm),
    };

    private static ushort Milliseconds(TimeSpan time) => (ushort)Math.Round(time.TotalMilliseconds);

    private static uint AtLeastOne(double value) => (uint)Math.Max(1, Math.Round(value));
}

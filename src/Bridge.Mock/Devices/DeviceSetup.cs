using Bridge.Jobs;
using Bridge.Wire;
using Axis = Bridge.Jobs.Axis;

namespace Bridge.Mock;

/// <summary>
/// What the host has told the device of the machine. All lengths are steps: the machine that comes out of it has the step for
/// its mm.
/// </summary>
internal sealed class DeviceSetup
{
    private readonly SetAxis?[] _axes;
    private readonly SetHead?[] _heads;
    private SetMachine? _machine;
    private Machine? _made;

    public DeviceSetup()
        : this(new SetAxis?[3], new SetHead?[2], null)
    {
    }

    private DeviceSetup(SetAxis?[] axes, SetHead?[] heads, SetMachine? machine) => (_axes, _heads, _machine) = (axes, heads, machine);

    /// <summary>How long the line may be silent in motion; zero before the machine is set.</summary>
    public TimeSpan LineTimeout => TimeSpan.FromMilliseconds(_machine?.LineTimeoutMs ?? 0);

    /// <summary>Octets of a record; zero before the machine is set.</summary>
    public int RecordLength => Width.Bytes;

    /// <summary>The width of records; none before the machine is set.</summary>
    public RecordWidth Width => _machine is { } machine ? WidthOf(machine) : default;

    /// <summary>The machine, once it and all its axes and heads are set; null before.</summary>
    public Machine? Machine => _made ??= IsComplete(out var machine) ? Make(machine) : null;

    /// <summary>Whether no endstop keeps a head from the cell nearest to it; one at the edge of the grid itself keeps no head without an offset.</summary>
    public bool HeadsReachTheirCells => Machine is { } machine && new[] { machine.A, machine.B }.OfType<HeadTool>()
        .All(tool => Reaches(machine.X, tool.OffsetXMm) && Reaches(machine.Y, tool.OffsetYMm));

    /// <summary>The digest of the machine file that the host has read.</summary>
    public DigestPrefix Digest => _machine?.Digest ?? default;

    /// <summary>The same, to be kept while this one changes.</summary>
    public DeviceSetup Copy() => new([.. _axes], [.. _heads], _machine);

    public void Set(SetMachine machine)
    {
        _machine = machine;
        _made = null;
    }

    public void Set(SetAxis axis)
    {
        _axes[axis.Axis] = axis;
        _made = null;
    }

    public void Set(SetHead head)
    {
        _heads[head.Head] = head;
        _made = null;
    }

    private static bool Reaches(Axis axis, double offset)
    {
        var towardsEndstop = axis.Endstop == AxisEnd.Min ? offset : -offset;
        return towardsEndstop <= 0 || towardsEndstop < axis.EndstopGapMm;
    }

    private bool IsComplete(out SetMachine machine)
    {
        machine = _machine.GetValueOrDefault();
        return _machine is not null && _axes.Take(machine.Axes).All(axis => axis is not null)
            && _heads.Take(machine.Heads).All(head => head is not null);
    }

    private Machine Make(SetMachine machine) => new()
    {
        Name = "as set over the line",
        Width = WidthOf(machine),
        StoreBytes = 0,
        MayOverprint = true,
        OverhangCells = 0,
        X = AxisOf(0, machine.CellsX),
        Y = AxisOf(1, machine.CellsY),
        Z = machine.Axes == 3 ? AxisOf(2, machine.Layers) : null,
        A = ToolOf(0),
        B = machine.Heads == 2 ? ToolOf(1) : null,
        HeadChange = TimeSpan.FromMilliseconds(machine.HeadChangeMs),
        Baud = 0,
        TimeOuts = new TimeOuts(default, LineTimeout, default),
        Digest = default,
    };

    private Axis AxisOf(int index, int cells)
    {
        var axis = _axes[index]!.Value;
        return new Axis
        {
            Cells = cells,
            PitchMm = axis.StepsPerCellQ16 / 65536.0,
            StepsPerMm = 1,
            TopSpeedMmS = axis.TopSpeed,
            AccelMmS2 = axis.Acceleration,
            ReferenceSpeedMmS = axis.ReferenceSpeed,
            Endstop = axis.EndstopAtMax ? AxisEnd.Max : AxisEnd.Min,
            EndstopGapMm = axis.EndstopGapSteps,
            BacklashMm = axis.BacklashSteps,
        };
    }

    private HeadTool ToolOf(int index)
    {
        var head = _heads[index]!.Value;
        var first = TimeSpan.FromMilliseconds(head.FirstMs);
        return head.Kind == HeadKind.Dot
            ? new HeadTool.Dot(first, head.OffsetXSteps, head.OffsetYSteps)
            : new HeadTool.Pen(first, TimeSpan.FromMilliseconds(head.SecondMs), head.OffsetXSteps, head.OffsetYSteps);
    }

    private static RecordWidth WidthOf(SetMachine machine) => RecordWidth.TryFrom(machine.AxisBits, out var width) ? width : default;
}

using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Mock;

/// <summary>
/// The physical truth that a device drives and cannot see but for its inputs: where the carriage really is, what was really
/// worked, whether the motors have power.
/// </summary>
public sealed class Gantry
{
    private readonly Machine _machine;
    private readonly List<Position> _worked = [];

    /// <summary>A gantry as a machine file describes it, its carriage anywhere over the grid.</summary>
    /// <param name="machine">The machine.</param>
    /// <param name="seed">Decides where the carriage stands.</param>
    public Gantry(Machine machine, int seed)
    {
        _machine = machine;
        var random = new Random(seed);
        var room = new[] { machine.A, machine.B }.OfType<HeadTool>()
            .Max(tool => Math.Max(Math.Abs(tool.OffsetXMm), Math.Abs(tool.OffsetYMm)));
        X = Of(machine.X, room);
        Y = Of(machine.Y, room);
        Z = machine.Z is { } z ? Of(z, 0) : null;

        GantryAxis Of(Axis axis, double roomMm) => new(axis, roomMm, random.NextDouble() * (axis.Cells - 1) * axis.PitchMm);
    }

    /// <summary>The most worked cells that are kept; beyond it they are only counted.</summary>
    public const int MostKept = 4_000_000;

    /// <summary>The X axis.</summary>
    public GantryAxis X { get; }

    /// <summary>The Y axis.</summary>
    public GantryAxis Y { get; }

    /// <summary>The Z axis; null on a machine of one layer.</summary>
    public GantryAxis? Z { get; }

    /// <summary>Whether the e-stop contact is open: pressed, or its wire cut. The motors have no power then.</summary>
    public bool EStopIsOpen { get; private set; }

    /// <summary>Whether the contact has opened since the device took note of it, as its interrupt would, however short that was.</summary>
    internal bool EStopHasOpened { get; set; }

    /// <summary>Whether the start button on the machine is pressed.</summary>
    public bool StartIsPressed { get; set; }

    /// <summary>Whether the device has switched the motors' drivers on.</summary>
    public bool DriversAreOn { get; internal set; }

    /// <summary>Cells really worked, in order: where the tool really was. At most <see cref="MostKept"/> are kept.</summary>
    public IReadOnlyList<Position> Worked => _worked;

    /// <summary>How many cells were worked.</summary>
    public long CellsWorked { get; private set; }

    /// <summary>Moves that a device asked for while the motors had no power. A sound device asks for none.</summary>
    public long MovesWithoutPower { get; private set; }

    /// <summary>Raised when a cell has been worked, with where the tool really was.</summary>
    public event Action<Position>? CellWorked;

    /// <summary>Presses the e-stop.</summary>
    public void PressEStop() => EStopIsOpen = EStopHasOpened = true;

    /// <summary>Releases the e-stop; nothing starts by that.</summary>
    public void ReleaseEStop() => EStopIsOpen = false;

    /// <summary>The axis that a name stands for; null where the machine lacks it.</summary>
    public GantryAxis? Axis(AxisName name) => name switch { AxisName.X => X, AxisName.Y => Y, _ => Z };

    /// <summary>Whether any endstop is closed.</summary>
    public bool AnyEndstopIsClosed => X.IsClosed || Y.IsClosed || Z is { IsClosed: true };

    /// <summary>Moves the carriage by hand, or by a motor that skips steps: the device does not know of it.</summary>
    public void Slip(AxisName name, double steps) => Axis(name)?.Move(steps);

    internal void Move(Place steps)
    {
        if (steps == default)
            return;
        if (!DriversAreOn || EStopIsOpen)
        {
            MovesWithoutPower++;
            return;
        }

        X.Move(steps.XMm);
        Y.Move(steps.YMm);
        Z?.Move(steps.ZMm);
    }

    /// <summary>
    /// Works where the tool is. A pen on a slanting line passes less than a cell beside the cell that is meant, and that one counts:
    /// Bresenham's cells lie up to half a cell beside the line, and a pen that was up begins it on one of them.
    /// </summary>
    internal void Work(Position meant)
    {
        var tool = _machine.Tool(meant.Head) ?? _machine.A;
        var near = tool is HeadTool.Pen ? 0.95 : 0.5;
        var cell = new Cell(X.CellAt(tool.OffsetXMm, meant.Cell.X, near), Y.CellAt(tool.OffsetYMm, meant.Cell.Y, near));
        var worked = new Position(cell, Z?.CellAt(0, meant.Layer, 0.5) ?? 0, meant.Head);
        CellsWorked++;
        if (_worked.Count < MostKept)
            _worked.Add(worked);
        CellWorked?.Invoke(worked);
    }

    /// <summary>The part, 0 to 1, of a move at which the first endstop closes, and whose it is; null where none does.</summary>
    internal (double Part, AxisName Axis)? PartToClose(Place steps)
    {
        (double Part, AxisName Axis)? first = null;
        Look(X.PartToClose(steps.XMm), AxisName.X);
        Look(Y.PartToClose(steps.YMm), AxisName.Y);
        Look(Z?.PartToClose(steps.ZMm), AxisName.Z);
        return first;

        void Look(double? part, AxisName axis)
        {
            if (part is { } found && (first is null || found < first.Value.Part))
                first = (found, axis);
        }
    }
}

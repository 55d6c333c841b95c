using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Board.Emulator;

/// <summary>
/// A machine on the pins of a chip: motors, carriages, endstops, e-stop, heads. It knows nothing but the pins and the machine's measures, and shows
/// what the firmware really does.
/// </summary>
public sealed class VirtualGantry
{
    private const ulong LeastPulseCycles = 31; // 1.9 us, the longest that drivers of this kind ask for (common practice)

    private readonly AvrChip chip;
    private readonly GantryAxis[] axes;
    private readonly GantryHead[] heads;
    private readonly ulong[] roseAt = new ulong[3];
    private readonly List<StepEdge> steps = [];

    /// <param name="chip">Whose pins it is on.</param>
    /// <param name="machine">Its measures.</param>
    /// <param name="start">Where the carriage stands at first, in steps from the centre of cell (0, 0) on layer 0.</param>
    public VirtualGantry(AvrChip chip, Machine machine, (int X, int Y, int Z) start)
    {
        this.chip = chip;
        var starts = new[] { start.X, start.Y, start.Z };
        axes = [.. SetupMessages.OfAxes(machine).Select((axis, index) => AxisOf(axis, CellsOf(machine, index), starts[index]))];
        heads = [.. SetupMessages.OfHeads(machine).Select(head => new GantryHead(head.Kind == HeadKind.Pen))];
        Work = new GantryWork(this, machine);
        chip.Pins.Drive(BoardPins.EStop, false);
        chip.Pins.Drive(BoardPins.StartButton, true);
        for (var axis = 0; axis < 3; axis++)
            chip.Pins.Drive(BoardPins.Endstop(axis), axis < axes.Length && axes[axis].ReadsReached);
        chip.Pins.Changed += OnPin;
        foreach (var axis in axes)
            chip.Keep(axis.Save);
        foreach (var head in heads)
            chip.Keep(head.Save);
        chip.Keep(Work.Save);
        chip.Keep(Save);
    }

    public event Action<StepEdge>? Stepped;

    public IReadOnlyList<GantryAxis> Axes => axes;

    public IReadOnlyList<GantryHead> Heads => heads;

    /// <summary>What the heads have worked.</summary>
    public GantryWork Work { get; }

    /// <summary>Every step edge, if <see cref="KeepsSteps"/>.</summary>
    public IReadOnlyList<StepEdge> Steps => steps;

    public bool KeepsSteps { get; set; }

    /// <summary>Cycle of the last step edge, 0 before the first.</summary>
    public ulong LastStep { get; private set; }

    /// <summary>Step edges since the beginning, all axes.</summary>
    public long StepEdges => axes.Sum(axis => axis.Up + axis.Down) + StepsOfNoAxis;

    /// <summary>Step edges of an axis that the machine does not have.</summary>
    public long StepsOfNoAxis { get; private set; }

    /// <summary>Step edges while the drivers were off: there must be none.</summary>
    public long StepsWithoutDrivers { get; private set; }

    /// <summary>Step pulses too short for a driver to see: there must be none.</summary>
    public long ShortPulses { get; private set; }

    public bool IsEStopOpen { get; private set; }

    /// <summary>The drivers are on where the program pulls their pin low; a pin that is not driven is pulled high by a resistor.</summary>
    public bool AreDriversOn => chip.Pins.IsOutput(BoardPins.Disable) && !chip.Pins.IsHigh(BoardPins.Disable);

    /// <summary>Presses the e-stop or releases it. Its other contact takes the power from the motors.</summary>
    public void SetEStop(bool isOpen)
    {
        IsEStopOpen = isOpen;
        chip.Pins.Drive(BoardPins.EStop, isOpen);
    }

    public void SetStartButton(bool isPressed) => chip.Pins.Drive(BoardPins.StartButton, !isPressed);

    public void CutWire(int axis, bool isCut)
    {
        axes[axis].IsWireCut = isCut;
        ShowEndstop(axis);
    }

    /// <summary>An endstop sticks and never reads as reached, or works again.</summary>
    public void StickEndstop(int axis, bool isStuck)
    {
        axes[axis].IsStuckOpen = isStuck;
        ShowEndstop(axis);
    }

    /// <summary>A hand moves a carriage.</summary>
    public void Push(int axis, int steps)
    {
        axes[axis].Push(steps);
        ShowEndstop(axis);
    }

    /// <summary>Lets an endstop close after so many more steps of its axis, wherever the carriage is and whichever way it goes.</summary>
    public void CloseEndstopAfter(int axis, int steps)
    {
        axes[axis].CloseAfter(steps);
        ShowEndstop(axis);
    }

    private Action Save()
    {
        var (last, noAxis, without, shorts, isOpen) = (LastStep, StepsOfNoAxis, StepsWithoutDrivers, ShortPulses, IsEStopOpen);
        var (rose, edges) = ((ulong[])roseAt.Clone(), steps.ToArray());
        return () =>
        {
            (LastStep, StepsOfNoAxis, StepsWithoutDrivers, ShortPulses, IsEStopOpen) = (last, noAxis, without, shorts, isOpen);
            rose.CopyTo(roseAt, 0);
            steps.Clear();
            steps.AddRange(edges);
        };
    }

    private void OnPin(PinEdge edge)
    {
        for (var axis = 0; axis < 3; axis++)
            if (edge.Pin == BoardPins.Step(axis))
                OnStepPin(axis, edge);
        for (var head = 0; head < heads.Length; head++)
            if (edge.Pin == BoardPins.Head(head))
            {
                heads[head].Take(edge.IsHigh, edge.Cycle);
                Work.Note(head, edge.Cycle);
            }
    }

    private void OnStepPin(int axis, PinEdge edge)
    {
        if (!edge.IsHigh)
        {
            ShortPulses += roseAt[axis] != 0 && edge.Cycle - roseAt[axis] < LeastPulseCycles ? 1 : 0;
            return;
        }
        var step = new StepEdge(axis, chip.Pins.IsHigh(BoardPins.Direction(axis)), edge.Cycle);
        roseAt[axis] = LastStep = edge.Cycle;
        if (KeepsSteps)
            steps.Add(step);
        if (axis >= axes.Length)
            StepsOfNoAxis++;
        else
            Move(step);
        Stepped?.Invoke(step);
    }

    private void Move(StepEdge step)
    {
        StepsWithoutDrivers += AreDriversOn ? 0 : 1;
        axes[step.Axis].Step(step.Up, AreDriversOn && !IsEStopOpen);
        ShowEndstop(step.Axis);
        for (var head = 0; head < heads.Length; head++)
            Work.Note(head, step.Cycle);
    }

    private void ShowEndstop(int axis)
    {
        var pin = BoardPins.Endstop(axis);
        if (chip.Pins.IsHigh(pin) != axes[axis].ReadsReached)
            chip.Pins.Drive(pin, axes[axis].ReadsReached);
    }

    private static int CellsOf(Machine machine, int axis) => axis switch { 0 => machine.X.Cells, 1 => machine.Y.Cells, _ => machine.Grid.Layers };

    private static GantryAxis AxisOf(SetAxis axis, int cells, int start)
    {
        var gap = (int)axis.EndstopGapSteps;
        var place = axis.EndstopAtMax ? GantryWork.StepsOfCell(axis, cells - 1) + gap : -gap;
        return new GantryAxis(start, place, axis.EndstopAtMax, axis.BacklashSteps);
    }
}

using Board.Emulator;
using Bridge.Jobs;

namespace Contract.Tests;

/// <summary>
/// An emulated board on its machine, just after power-on. To emulate takes time, so a bench goes back to that moment for the next test, and to the
/// moment at which a host had made it ready.
/// </summary>
internal sealed class EmulatedBench : IDisposable
{
    private static readonly TimeSpan WakesWithin = TimeSpan.FromMilliseconds(2);

    private readonly Machine _machine;
    private readonly AvrSnapshot _powerOn;
    private readonly ToolPlace _tools;
    private readonly Queue<byte> _sent = new();
    private readonly List<Position> _worked = [];
    private (AvrSnapshot Moment, object Host)? _ready;
    private int _dots;

    public EmulatedBench(Machine machine)
    {
        (_machine, _tools) = (machine, new ToolPlace(machine));
        Board = new EmulatedBoard(machine, (0, 0, 0));
        for (var axis = 0; axis < Board.Gantry.Axes.Count; axis++)
        {
            var frame = new AxisFrame(machine, (Bridge.Jobs.AxisName)axis);
            Board.Gantry.Axes[axis].SetFrame(frame.Least, frame.Most);
        }

        Trace = new CellTrace(Board.Chip);
        Trace.Worked += OnWorked;
        Board.Chip.Serial.Sent += one => _sent.Enqueue(one.Octet);
        Wake();
        _powerOn = Board.Chip.Snapshot();
    }

    public EmulatedBoard Board { get; }

    public CellTrace Trace { get; }

    public IReadOnlyList<Position> Worked => _worked;

    /// <summary>Cells that the firmware counted while the pins showed no tool at work.</summary>
    public long WorkedByNothing { get; private set; }

    /// <summary>Lets the firmware put itself together after a reset.</summary>
    public void Wake()
    {
        Board.Chip.RunFor(WakesWithin);
        Trace.Begin();
    }

    /// <summary>Back to power-on, the carriage anywhere over the grid.</summary>
    public void PowerOn(int seed)
    {
        Forget(_powerOn);
        var random = new Random(seed);
        for (var axis = 0; axis < Board.Gantry.Axes.Count; axis++)
            Board.Gantry.Push(axis, random.Next(new AxisFrame(_machine, (Bridge.Jobs.AxisName)axis).Far));
    }

    /// <summary>Back to where a host had made it ready; what that host knew, or null where none has yet.</summary>
    public object? GetReady()
    {
        if (_ready is { } ready)
            Forget(ready.Moment);
        return _ready?.Host;
    }

    public void KeepReady(object host) => _ready = (Board.Chip.Snapshot(), host);

    public byte[] Take()
    {
        byte[] octets = [.. _sent];
        _sent.Clear();
        return octets;
    }

    public void Dispose() => Board.Dispose();

    private void Forget(AvrSnapshot moment)
    {
        moment.Restore();
        _sent.Clear();
        _worked.Clear();
        (_dots, WorkedByNothing) = (Board.Gantry.Work.Worked.Count, 0);
    }

    private void OnWorked(WorkedPlace meant)
    {
        var head = Board.Gantry.Heads[(int)meant.Head];
        var dots = Board.Gantry.Work.Worked.Count;
        WorkedByNothing += head.IsPen ? (head.Works ? 0 : 1) : dots == _dots ? 1 : 0; // a dot is made and then counted
        _dots = dots;
        Span<int> carriage = stackalloc int[3];
        for (var axis = 0; axis < Board.Gantry.Axes.Count; axis++)
            carriage[axis] = Board.Gantry.Axes[axis].Carriage;
        _worked.Add(_tools.CellOf(new Position(meant.Cell, meant.Layer, meant.Head), carriage));
    }
}

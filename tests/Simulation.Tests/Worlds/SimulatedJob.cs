using Bridge.Jobs;
using Bridge.Runs;

namespace Simulation.Tests;

/// <summary>A small quick machine and a small job for it, from a seed; and the cells that it works, in order.</summary>
internal sealed class SimulatedJob
{
    private const int Cells = 12;

    private readonly Random _random;
    private readonly List<Record> _records = [];
    private readonly List<Position> _cells = [];
    private readonly List<int> _cellsBefore = [];
    private readonly List<LayerChange> _layers;
    private int _layer;

    private SimulatedJob(Random random, Machine machine)
    {
        (_random, Machine) = (random, machine);
        MakeRecords();
        Job = ProvedJob.Of(new JobFile(machine.Grid, machine.Digest, Image.Of(machine.Width, [.. _records])), machine);
        _layers = [.. LayerChange.Of(Job)];
        var passes = new PassReader(Job.Job.Image, machine.Grid);
        while (passes.TryNext(out var pass))
        {
            _cellsBefore.Add(_cells.Count);
            foreach (var cell in pass.Work)
                _cells.Add(pass.Entry with { Cell = cell });
        }

        _cellsBefore.Add(_cells.Count);
        MeasuresLayers = random.Next(2) == 0;
        IsAttended = random.Next(3) == 0;
    }

    public static TimeSpan LineTimeout { get; } = TimeSpan.FromSeconds(0.3);

    public Machine Machine { get; }

    public ProvedJob Job { get; }

    /// <summary>The cells in the order in which they are worked.</summary>
    public IReadOnlyList<Position> InOrder => _cells;

    /// <summary>Whether the machine finds its zero anew where a layer begins, if the way down is free there.</summary>
    public bool MeasuresLayers { get; }

    /// <summary>Whether a run waits for its operator: to start, and where its job says so.</summary>
    public bool IsAttended { get; }

    public static SimulatedJob Of(int seed)
    {
        var random = new Random(seed);
        return new SimulatedJob(random, MachineOf(random));
    }

    /// <summary>Cells worked before a place.</summary>
    public int CellsBefore(JobPlace place) => _cellsBefore[(int)Math.Min(place.Records, _cellsBefore.Count - 1)] + (int)place.Cells;

    /// <summary>The next layer at which the machine finds its zero anew, when the job is gone on with at a record; null where there is none.</summary>
    public LayerChange? LayerAfter(long record) =>
        MeasuresLayers ? _layers.FirstOrDefault(change => change.Record > record && change.InTheWay is null) : null;

    private static Machine MachineOf(Random random)
    {
        HeadTool Tool() => random.Next(2) == 0
            ? new HeadTool.Pen(TimeSpan.FromMilliseconds(random.Next(5, 20)), TimeSpan.FromMilliseconds(random.Next(5, 20)), random.Next(-2, 3) / 2.0, 0)
            : new HeadTool.Dot(TimeSpan.FromMilliseconds(random.Next(5, 20)), 0, random.Next(-2, 3) / 2.0);
        Axis AxisOf(int cells) => new()
        {
            Cells = cells, PitchMm = 2, StepsPerMm = 5 + random.Next(60) / 10.0, TopSpeedMmS = 80 + random.Next(60), AccelMmS2 = 1500 + random.Next(3000),
            ReferenceSpeedMmS = 40, Endstop = (AxisEnd)random.Next(2), EndstopGapMm = 2.5, BacklashMm = random.Next(2) / 5.0,
        };
        return new Machine
        {
            Name = "simulated", Width = random.Next(3) == 0 ? RecordWidth.Eight : RecordWidth.Four, StoreBytes = 256, MayOverprint = true, OverhangCells = 0,
            X = AxisOf(Cells), Y = AxisOf(Cells), Z = random.Next(3) == 0 ? AxisOf(3) : null, A = Tool(), B = random.Next(3) > 0 ? Tool() : null,
            HeadChange = TimeSpan.FromMilliseconds(20), Baud = 500_000,
            TimeOuts = new TimeOuts(TimeSpan.FromSeconds(1), LineTimeout, TimeSpan.FromSeconds(20)), Digest = default,
        };
    }

    private void MakeRecords()
    {
        var isLong = _random.Next(4) == 0; // more records than the board's queue holds
        var most = isLong ? _random.Next(20, 50) : _random.Next(3, 12);
        while (_records.Count < most)
            _records.Add(Next(isLong ? 2 : 5));
        if (_random.Next(3) == 0)
            _records.Add(Record.Again(Machine.Width, _random.Next(1, 3), _random.Next(1, 4)));
        _records.RemoveAll(record => record.Verb == Verb.Again && _records.Any(other => other.Rise)); // a repeat may not rise out of the grid
        _records.Add(Record.End);
    }

    private Record Next(int longest)
    {
        var head = Machine.B is not null && _random.Next(3) == 0 ? Head.B : Head.A;
        var rise = _layer + 1 < Machine.Grid.Layers && _random.Next(6) == 0;
        _layer += rise ? 1 : 0;
        var cell = new Cell(_random.Next(Cells), _random.Next(Cells));
        return _random.Next(20) switch
        {
            0 => Record.Wait(Machine.Width, _random.Next(2), rise),
            1 => Record.WaitForOperator(rise),
            < 4 => Record.Go(head, cell, rise),
            < 7 => Record.Patch(head, new Cell(cell.X / 2, cell.Y / 2), _random.Next(1, 4), _random.Next(1, 4), PatchWay.AlongX, rise),
            < 11 => Record.Line(head, new Cell(cell.X / 2, cell.Y / 2), rise),
            _ => Row(head, cell, longest, rise),
        };
    }

    private Record Row(Head head, Cell first, int longest, bool rise)
    {
        var (heading, cells) = (_random.Next(8), 1);
        while (cells < longest && Machine.Grid.Holds(new Cell(first.X + Heading.Dx(heading) * cells, first.Y + Heading.Dy(heading) * cells)))
            cells++;
        return Record.Row(Machine.Width, head, first, heading, _random.Next(1, cells + 1), rise);
    }
}

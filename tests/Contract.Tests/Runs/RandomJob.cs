using Bridge.Jobs;

namespace Contract.Tests;

/// <summary>A machine of any width and a job for it, made from a seed: every verb, both heads, layers where there are dots.</summary>
internal sealed class RandomJob
{
    private const int MostRecords = 10;

    private readonly Random _random;
    private readonly List<Record> _records = [];
    private Cell _at;
    private int _layer;

    private RandomJob(int seed)
    {
        _random = new Random(seed);
        Machine = MakeMachine();
        while (_records.Count < MostRecords)
        {
            _records.Add(Next());
            DoAgain();
        }

        _records.Add(Record.End);
    }

    public Machine Machine { get; }

    public Record[] Records => [.. _records];

    public static RandomJob Of(int seed) => new(seed);

    private Machine MakeMachine()
    {
        RecordWidth[] widths = [RecordWidth.Four, RecordWidth.Four, RecordWidth.Eight, RecordWidth.Twelve];
        var width = widths[_random.Next(widths.Length)];
        var machine = ContractMachines.Of(MakeTool(), _random.Next(4) > 0 ? MakeTool() : null,
            _random.Next(2) == 0 ? ContractMachines.Dots.Z : null, width, width == RecordWidth.Four ? 16 : 40);
        return machine with { X = MakeAxis(machine.X), Y = MakeAxis(machine.Y) };
    }

    private HeadTool MakeTool()
    {
        var (x, y) = (_random.Next(-3, 4) / 2.0, _random.Next(-3, 4) / 2.0);
        return _random.Next(2) == 0 ? ContractMachines.Pen(x, y) : ContractMachines.Dot(_random.Next(5, 30) / 1000.0, x, y);
    }

    private Axis MakeAxis(Axis axis) => axis with
    {
        StepsPerMm = 30 + _random.Next(0, 300) / 10.0, // a cell is seldom a whole number of steps
        TopSpeedMmS = 60 + _random.Next(100),
        AccelMmS2 = 1000 + _random.Next(3000),
        BacklashMm = _random.Next(3) / 10.0,
        Endstop = (AxisEnd)_random.Next(2),
    };

    private Record Next()
    {
        var head = Machine.B is not null && _random.Next(3) == 0 ? Head.B : Head.A;
        var rise = _layer + 1 < Machine.Grid.Layers && _random.Next(8) == 0;
        _layer += rise ? 1 : 0;
        return _random.Next(10) switch
        {
            0 => Record.Go(head, To(Any()), rise),
            1 => Record.Wait(Machine.Width, _random.Next(3), rise),
            < 5 => Row(head, rise),
            < 7 => Patch(head, rise),
            _ => Record.Line(head, To(Any()), rise),
        };
    }

    /// <summary>Now and then, the last one to three records once or twice more: those since the last `again` that go up no layer.</summary>
    private void DoAgain()
    {
        if (_random.Next(6) > 0)
            return;
        var free = _records.AsEnumerable().Reverse().TakeWhile(record => record.Verb != Verb.Again && !record.Rise).Count();
        var reach = Math.Min(_random.Next(1, 4), free);
        if (reach > 0)
            _records.Add(Record.Again(Machine.Width, reach, _random.Next(1, 3)));
    }

    private Record Row(Head head, bool rise)
    {
        var (first, heading) = (Any(), _random.Next(8));
        var cells = 1;
        while (cells < 12 && Machine.Grid.Holds(Along(first, heading, cells)))
            cells++;
        cells = _random.Next(1, cells + 1);
        To(Along(first, heading, cells - 1));
        return Record.Row(Machine.Width, head, first, heading, cells, rise);
    }

    private Record Patch(Head head, bool rise)
    {
        var (corner, way) = (Any(), (PatchWay)_random.Next(8));
        var (x, y) = (Room(corner.X, way.HasFlag(PatchWay.XFalls)), Room(corner.Y, way.HasFlag(PatchWay.YFalls)));
        To(CellPath.Patch(corner, x, y, way).Last);
        return Record.Patch(head, corner, x, y, way, rise);
    }

    /// <summary>A number of cells, 1 to 4, that fit from a cell on.</summary>
    private int Room(int from, bool falls) => _random.Next(1, Math.Min(4, falls ? from + 1 : Machine.X.Cells - from) + 1);

    private static Cell Along(Cell first, int heading, int cells) =>
        new(first.X + Heading.Dx(heading) * cells, first.Y + Heading.Dy(heading) * cells);

    private Cell Any() => _random.Next(6) == 0 ? _at : new Cell(_random.Next(Machine.X.Cells), _random.Next(Machine.Y.Cells));

    private Cell To(Cell cell) => _at = cell;
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>
/// Executes an image of a layout record by record, again unrolled, from (0, 0) on layer 0 with head a, and says in ordinary records what each does:
/// so it can be held against shape and machine as any job.
/// </summary>
internal sealed class LayoutDecoder(LayoutImage image, RecordWidth width, Grid grid)
{
    private readonly Layout _layout = image.Layout;
    private readonly List<Record> _records = [];
    private readonly List<int> _origins = [];
    private Position _position;
    private int _next;
    private int _roundsLeft = -1; // of the again that is being done; -1 outside

    /// <summary>What stopped it; null where the job is complete.</summary>
    public JobFault? Fault { get; private set; }

    /// <summary>The ordinary records, up to 1 million, without the end.</summary>
    public IReadOnlyList<Record> Records => _records;

    /// <summary>For each of them, the record of the image that it comes from.</summary>
    public IReadOnlyList<int> Origins => _origins;

    public LayoutDecoder Decode()
    {
        var steps = 0;
        while (Fault is null && _next < image.Words.Count)
        {
            if (steps++ == LayoutImage.MostRecords)
                Refuse(JobRule.TooLong, $"more than {LayoutImage.MostRecords} executed records", $"up to {LayoutImage.MostRecords}",
                    "An again with a wrong count? Correct it.");
            else if (_layout.VerbOf(image.Words[_next]) is not { } verb)
                Refuse(JobRule.VerbNone, $"the bits {Bits(image.Words[_next])}, which are no verb's",
                    string.Join(", ", _layout.Verbs.Select(known => known.Name)),
                    "A wrong bit, or erased memory: write the image again.");
            else if (verb.Act == LayoutAct.End)
                break;
            else if (verb.Act == LayoutAct.Again)
                Repeat(verb, image.Words[_next]);
            else
                Do(verb, image.Words[_next]);
        }
        return this;
    }

    private void Repeat(LayoutVerb verb, ulong word)
    {
        var reach = _layout.Count(verb, LayoutRole.Reach, word);
        if (_roundsLeft < 0)
        {
            for (var before = _next - 1; before >= Math.Max(0, _next - reach); before--)
                if (_layout.VerbOf(image.Words[before])?.Act == LayoutAct.Again)
                {
                    Refuse(JobRule.AgainOverAgain, $"{verb.Name} over the last {reach} records, record {before} among them",
                        $"at most the {_next - before - 1} records behind record {before}", "Correct the count.");
                    return;
                }
            if (reach < 1 || reach > _next)
            {
                Refuse(JobRule.AgainBeforeFirst, $"{verb.Name} over the last {reach} records", $"1 to the {_next} records before it", "Correct the count.");
                return;
            }
            _roundsLeft = _layout.Count(verb, LayoutRole.Times, word);
            if (_roundsLeft < 1)
            {
                Refuse(JobRule.ReservedBits, $"{verb.Name}, {_roundsLeft} more times", "1 and up", "Correct the count.");
                return;
            }
        }
        if (_roundsLeft-- > 0)
            _next -= reach;
        else
            _next++;
    }

    private void Do(LayoutVerb verb, ulong word)
    {
        var rise = verb.Act == LayoutAct.Rise || verb.Read(LayoutRole.Rise, word) == 1;
        var head = (Head)verb.Read(LayoutRole.Head, word, (int)_position.Head);
        var start = verb.Act == LayoutAct.Base ? new Cell(0, 0) : _layout.Place(verb, word, _position.Cell);
        if (Says(verb, word, start, head, rise) is not { } record || !Holds(verb, start) || !IsWithin(record))
            return;
        _records.Add(record);
        _origins.Add(_next);
        var pass = PassReader.PassOf(width, _next, record, _position);
        _position = pass.After;
        _next++;
    }

    private Record? Says(LayoutVerb verb, ulong word, Cell start, Head head, bool rise)
    {
        var count = _layout.Count(verb, LayoutRole.Count, word);
        var heading = _layout.HeadingOf(verb, word);
        if (verb.Act is LayoutAct.Row or LayoutAct.Step && heading is null)
            return Refuse(JobRule.ReservedBits, $"{verb.Name} with the bits {Bits(word)}, which name no heading", "the headings of the layout",
                "Correct the bits.");
        var way = LayoutNumbers.WayOf(verb, word);
        return verb.Act switch
        {
            LayoutAct.Dot => Record.Row(width, head, start, 0, 1, rise),
            LayoutAct.Row => Fits(verb, count, width.LargestPair) ? Record.Row(width, head, start, heading!.Value, count, rise) : null,
            LayoutAct.Step => Fits(verb, count, width.LargestPair) ? Stepped(verb, heading!.Value, count, head, rise) : null,
            LayoutAct.Patch => Patch(verb, start, head, _layout.Count(verb, LayoutRole.SizeX, word), _layout.Count(verb, LayoutRole.SizeY, word), way, rise),
            LayoutAct.Square => Patch(verb, start, head, _layout.Count(verb, LayoutRole.Size, word), _layout.Count(verb, LayoutRole.Size, word), way, rise),
            LayoutAct.Line => Record.Line(head, start, rise),
            LayoutAct.Wait => Fits(verb, verb.Read(LayoutRole.Tenths, word) + 1, width.LargestPair + 1)
                ? Record.Wait(width, verb.Read(LayoutRole.Tenths, word), rise) : null,
            LayoutAct.Hold => Record.WaitForOperator(rise),
            _ => Record.Go(head, start, rise),
        };
    }

    private Record? Stepped(LayoutVerb verb, int heading, int count, Head head, bool rise)
    {
        var to = new Cell(_position.Cell.X + count * Heading.Dx(heading), _position.Cell.Y + count * Heading.Dy(heading));
        return Holds(verb, to) ? Record.Go(head, to, rise) : null;
    }

    private Record? Patch(LayoutVerb verb, Cell corner, Head head, int cellsX, int cellsY, PatchWay way, bool rise) =>
        Fits(verb, cellsX, width.Places) && Fits(verb, cellsY, width.Places) ? Record.Patch(head, corner, cellsX, cellsY, way, rise) : null;

    private bool Fits(LayoutVerb verb, int count, int most)
    {
        if (count < 1 || count > most)
            Refuse(JobRule.OffGrid, $"{verb.Name} of {count} cells", $"1 to {most}", "Correct the count.");
        return Fault is null;
    }

    // The grid of the machine is the proof's to watch; what an ordinary record cannot say, or the layout does not count, ends it here.
    private bool Holds(LayoutVerb verb, Cell cell)
    {
        var (x, y) = (Math.Min(_layout.PositionsX, width.Places), Math.Min(_layout.PositionsY, width.Places));
        if (Fault is null && !((uint)cell.X < (uint)x && (uint)cell.Y < (uint)y))
            Refuse(JobRule.OffGrid, $"{verb.Name} to {cell}", $"x 0 to {x - 1}, y 0 to {y - 1}", "Correct the record.");
        return Fault is null;
    }

    // A work that leaves the grid would leave what a record can name, and go on from there.
    private bool IsWithin(Record record)
    {
        var (one, other) = PassReader.PassOf(width, _next, record, _position).Work.Corners;
        if (!grid.Holds(one) || !grid.Holds(other))
            Refuse(JobRule.OffGrid, $"work that reaches {(grid.Holds(one) ? other : one)}", $"x 0 to {grid.X - 1}, y 0 to {grid.Y - 1}",
                "Correct the record or plan the job for this grid.");
        return Fault is null;
    }

    private Record? Refuse(JobRule rule, string found, string allowed, string action)
    {
        Fault = new JobFault(rule, _next, new Refusal(LayoutProof.PlaceOf(_layout, _next), found, allowed, action));
        return null;
    }

    private string Bits(ulong word) => word.ToString("b", null).PadLeft(8 * _layout.RecordBytes, '0');
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>The records of a layout so far, and where they leave the machine.</summary>
internal sealed class LayoutDraft(Layout layout, RecordWidth width, bool mayOverprint, LayoutState start, Cell planned)
{
    private readonly LayoutSearch _search = new(layout);
    private readonly BlockPieces _pieces = new(layout, mayOverprint);
    private LayoutState _state = start;

    public List<ulong> Words { get; } = [];

    public LayoutState State => _state;

    /// <summary>Where the planned job stands, from where a line of it begins.</summary>
    public Cell Planned { get; private set; } = planned;

    /// <summary>Says an ordinary record, end and again apart.</summary>
    /// <exception cref="RefusedException">The layout cannot; the first thing that is missing is told.</exception>
    public void Say(Record record)
    {
        var pass = PassReader.PassOf(width, 0, record, new Position(Planned, 0, _state.Head ?? Head.A));
        Planned = pass.After.Cell;
        _state = _state with { MustRise = record.Rise };
        var said = record.Verb switch
        {
            Verb.Go => Move(record),
            Verb.Row => Shortest(record.Head, _pieces.OfRow(record.At, record.Heading, record.PairPq(width) + 1)),
            Verb.Patch => Shortest(record.Head, _pieces.OfPatch(pass.Work, (PatchWay)record.Heading)),
            Verb.Line => Shortest(record.Head, LineSequences(record.At, pass.Work)),
            _ => Wait(record),
        };
        if (!said)
            throw new RefusedException([LayoutMissing.Of(layout, RecordWords.Meaning(width, record), pass)]);
    }

    /// <summary>Leads the machine idle to a cell with a head.</summary>
    public bool Go(Cell to, Head head) => Take(_search.Go(_state, head, to));

    // Where the layout goes there at more cost, or not at all, it only goes up: the next record that works takes it where it must be.
    private bool Move(Record record)
    {
        var there = _search.Go(_state, record.Head, record.At);
        var up = _search.Rise(_state, record.Head);
        return Take(there is { } moved && moved.Words.Count <= up?.Words.Count ? there : up ?? there);
    }

    private IEnumerable<IEnumerable<IReadOnlyList<LayoutPiece>>> LineSequences(Cell to, CellPath path)
    {
        yield return [[LayoutPiece.Line(path.Start, to)]];
        var cells = new List<IReadOnlyList<LayoutPiece>>();
        foreach (var cell in path)
            cells.Add(_pieces.OfRow(cell, 0, 1).First().First());
        yield return cells;
    }

    // Of all the ways to take a work apart the one with the fewest records; the first of several.
    private bool Shortest(Head head, IEnumerable<IEnumerable<IReadOnlyList<LayoutPiece>>> sequences)
    {
        (List<ulong> Words, LayoutState End)? best = null;
        foreach (var sequence in sequences)
            if (Follow(head, sequence, best?.Words.Count ?? int.MaxValue) is { } found)
                best = found;
        return Take(best);
    }

    private (List<ulong> Words, LayoutState End)? Follow(Head head, IEnumerable<IReadOnlyList<LayoutPiece>> sequence, int fewest)
    {
        var (words, state) = (new List<ulong>(), _state);
        foreach (var pieces in sequence)
        {
            if (_search.Work(state, head, pieces) is not { } found)
                return null;
            words.AddRange(found.Words);
            state = found.End;
            if (words.Count >= Math.Min(fewest, LayoutImage.MostRecords))
                return null;
        }
        return (words, state);
    }

    private bool Wait(Record record)
    {
        foreach (var isRisen in new[] { false, true })
        {
            if (isRisen && (!_state.MustRise || !Take(_search.Rise(_state, _state.Head ?? Head.A))))
                return false;
            foreach (var verb in layout.Doing(record.Heading == 1 ? LayoutAct.Hold : LayoutAct.Wait))
            {
                var writing = new LayoutWriting(layout, verb).Rise(_state.MustRise);
                if ((record.Heading == 1 ? writing : writing.Put(LayoutRole.Tenths, record.PairPq(width))).Word is { } word)
                    return Take(([word], _state with { MustRise = false }));
            }
        }
        return false;
    }

    private bool Take((List<ulong> Words, LayoutState End)? found)
    {
        if (found is not { } taken)
            return false;
        Words.AddRange(taken.Words);
        _state = taken.End;
        return true;
    }
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Where a job in a layout stands.</summary>
/// <param name="At">The present cell.</param>
/// <param name="Head">The present head; null where it may be either.</param>
/// <param name="MustRise">Whether a rise is due.</param>
internal readonly record struct LayoutState(Cell At, Head? Head, bool MustRise);

/// <summary>Finds the fewest records that do a work, with what must go before it: rise, head, idle moves. Breadth first.</summary>
internal sealed class LayoutSearch(Layout layout)
{
    private const int MostStates = 20_000;

    /// <summary>The records that do one of some pieces with a head, and where they end; null where the layout cannot.</summary>
    public (List<ulong> Words, LayoutState End)? Work(LayoutState from, Head head, IReadOnlyList<LayoutPiece> pieces)
    {
        var targets = pieces.Select(piece => piece.First).Distinct().ToList();
        return Search(from, head, targets, state => Direct(state, head, pieces));
    }

    /// <summary>The records that lead to a cell with a head, a rise done where it is due.</summary>
    public (List<ulong> Words, LayoutState End)? Go(LayoutState from, Head head, Cell to) =>
        Search(from, head, [to], state => state.At == to && state.Head == head && !state.MustRise ? ([], state) : null);

    /// <summary>The records that go up, from wherever that is done.</summary>
    public (List<ulong> Words, LayoutState End)? Rise(LayoutState from, Head head) =>
        Search(from, head, [from.At], state => state.MustRise ? null : ([], state));

    private (List<ulong> Words, LayoutState End)? Search(
        LayoutState from, Head head, List<Cell> targets, Func<LayoutState, (List<ulong> Words, LayoutState End)?> isDone)
    {
        var reached = new Dictionary<LayoutState, (LayoutState By, ulong Word)> { [from] = default };
        var open = new Queue<LayoutState>([from]);
        while (open.TryDequeue(out var state) && reached.Count < MostStates)
        {
            if (isDone(state) is { } done)
                return (Back(reached, from, state, done.Words), done.End);
            foreach (var (word, next) in targets.SelectMany(target => Idle(state, head, target)))
                if (reached.TryAdd(next, (state, word)))
                    open.Enqueue(next);
        }
        return null;
    }

    private static List<ulong> Back(Dictionary<LayoutState, (LayoutState By, ulong Word)> reached, LayoutState from, LayoutState state, List<ulong> last)
    {
        var words = last;
        for (; state != from; state = reached[state].By)
            words.Insert(0, reached[state].Word);
        return words;
    }

    private (List<ulong> Words, LayoutState End)? Direct(LayoutState state, Head head, IReadOnlyList<LayoutPiece> pieces)
    {
        foreach (var piece in pieces)
            foreach (var verb in layout.Doing(piece.Act))
            {
                var writing = new LayoutWriting(layout, verb).Head(state.Head, head).Rise(state.MustRise);
                if (piece.Act == LayoutAct.Line && state.At != piece.First)
                    continue;
                writing.Place(state.At, piece.Act == LayoutAct.Line ? piece.Last : piece.First);
                if (piece.Say(writing).Word is { } word)
                    return ([word], new LayoutState(piece.Last, head, false));
            }
        return null;
    }

    // What one idle record can do of what is wanted.
    private IEnumerable<(ulong Word, LayoutState Next)> Idle(LayoutState state, Head head, Cell target)
    {
        foreach (var verb in layout.Verbs)
        {
            var ends = verb.Act switch
            {
                LayoutAct.Go => [Nearest(verb, state.At, target)],
                LayoutAct.Base => [new Cell(0, 0)],
                LayoutAct.Step => Steps(verb, state.At, target),
                LayoutAct.Rise or LayoutAct.Head => [state.At],
                _ => Enumerable.Empty<Cell>(),
            };
            var rises = state.MustRise && (verb.Act == LayoutAct.Rise || verb.Has(LayoutRole.Rise));
            var next = verb.Has(LayoutRole.Head) ? head : state.Head;
            foreach (var end in ends)
            {
                var writing = new LayoutWriting(layout, verb).Head(state.Head, next).Rise(rises);
                if (Say(writing, verb, state.At, end) is { } word)
                    yield return (word, new LayoutState(end, next, state.MustRise && !rises));
            }
        }
    }

    private static ulong? Say(LayoutWriting writing, LayoutVerb verb, Cell from, Cell to)
    {
        if (verb.Act == LayoutAct.Go)
            writing.Place(from, to);
        if (verb.Act != LayoutAct.Step)
            return writing.Word;
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        var heading = Enumerable.Range(0, Heading.Count).First(number => Heading.Dx(number) == Math.Sign(dx) && Heading.Dy(number) == Math.Sign(dy));
        return writing.Heading(heading).Count(LayoutRole.Count, Math.Max(Math.Abs(dx), Math.Abs(dy))).Word;
    }

    private Cell Nearest(LayoutVerb verb, Cell from, Cell to) => new(
        from.X + LayoutReach.Of(layout, verb, LayoutRole.X, LayoutRole.SignX).Nearest(to.X - from.X),
        from.Y + LayoutReach.Of(layout, verb, LayoutRole.Y, LayoutRole.SignY).Nearest(to.Y - from.Y));

    private IEnumerable<Cell> Steps(LayoutVerb verb, Cell from, Cell to)
    {
        var most = layout.Most(verb, LayoutRole.Count);
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        var both = Math.Min(most, Math.Min(Math.Abs(dx), Math.Abs(dy)));
        if (both > 0)
            yield return new Cell(from.X + both * Math.Sign(dx), from.Y + both * Math.Sign(dy));
        if (dx != 0)
            yield return new Cell(from.X + Math.Clamp(dx, -most, most), from.Y);
        if (dy != 0)
            yield return new Cell(from.X, from.Y + Math.Clamp(dy, -most, most));
    }
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Says a planned job in the records of a layout: what the layout lacks becomes what it has, in few records.</summary>
public sealed class LayoutLowering
{
    private readonly Layout _layout;
    private readonly RecordWidth _width;
    private readonly bool _mayOverprint;
    private readonly List<ulong> _words = [];
    private LayoutState _state = new(default, Head.A, false);
    private Cell _planned;

    private LayoutLowering(Layout layout, Machine machine) => (_layout, _width, _mayOverprint) = (layout, machine.Width, machine.MayOverprint);

    /// <summary>The image of a job's records, with an end unless it fills the store to the last whole record.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="records">The job, planned for the machine.</param>
    /// <param name="machine">The machine; the image may be larger than its store.</param>
    /// <exception cref="RefusedException">The layout cannot say it; the first thing that is missing is told.</exception>
    public static LayoutImage Lower(Layout layout, IReadOnlyList<Record> records, Machine machine)
    {
        var lowering = new LayoutLowering(layout, machine);
        foreach (var (first, count, extra) in Stretches(records, machine.Width))
            lowering.Add([.. records.Skip(first).Take(count)], extra);
        if (lowering._words.Count != machine.StoreBytes / layout.RecordBytes)
            lowering._words.Add(layout.Doing(LayoutAct.End).First().Bits);
        return LayoutImage.Of(layout, lowering._words);
    }

    // Records that are done once, and those that an again does so many more times.
    private static List<(int First, int Count, int Extra)> Stretches(IReadOnlyList<Record> records, RecordWidth width)
    {
        var stretches = new List<(int First, int Count, int Extra)>();
        var done = 0;
        for (var index = 0; index < records.Count; index++)
        {
            var record = records[index];
            if (record.Verb is not (Verb.Again or Verb.End))
                continue;
            var first = record.Verb == Verb.Again ? index - record.PairXy(width) - 1 : index;
            if (first > done)
                stretches.Add((done, first - done, 0));
            if (record.Verb == Verb.Again)
                stretches.Add((first, index - first, record.PairPq(width) + 1));
            done = index + 1;
        }
        if (done < records.Count)
            stretches.Add((done, records.Count - done, 0));
        return stretches;
    }

    private void Add(IReadOnlyList<Record> records, int extra)
    {
        if (extra > 0 && TryRepeat(records, extra))
            return;
        for (var time = 0; time <= extra; time++)
        {
            Take(Say(_state, _planned, records));
            if (_words.Count > LayoutImage.MostRecords)
                throw new RefusedException($"layout {_layout.Name}", $"more than {LayoutImage.MostRecords} records", $"up to {LayoutImage.MostRecords}",
                    "Add a verb that does again, or take a simpler shape.");
        }
    }

    // The records of a repeat must do the same in every round: from the place where they end, with whatever head.
    private bool TryRepeat(IReadOnlyList<Record> records, int extra)
    {
        if (!_layout.Doing(LayoutAct.Again).Any())
            return false;
        var once = Say(_state, _planned, records);
        var body = Say(once.State with { Head = null }, once.Planned, records);
        var lead = new LayoutDraft(_layout, _width, _mayOverprint, _state, _planned);
        var fromHere = Say(_state with { Head = null }, _planned, records);
        var isSame = fromHere.Words.SequenceEqual(body.Words);
        if (!isSame && (records.Any(record => record.Verb == Verb.Line) || !lead.Go(body.State.At, _state.Head ?? Head.A)))
            return false; // a line depends on where a round begins
        if (body.State.At != once.State.At || Again(body.Words.Count, extra) is not { } again
            || (long)once.Words.Count * (extra + 1) < lead.Words.Count + body.Words.Count + 1)
            return false;
        Take(lead);
        Take(body);
        _words.Add(again);
        return true;
    }

    private ulong? Again(int reach, int times) => _layout.Doing(LayoutAct.Again)
        .Select(verb => new LayoutWriting(_layout, verb).Count(LayoutRole.Reach, reach).Count(LayoutRole.Times, times).Word)
            .FirstOrDefault(word => word is not null);

    private LayoutDraft Say(LayoutState from, Cell planned, IEnumerable<Record> records)
    {
        var draft = new LayoutDraft(_layout, _width, _mayOverprint, from, planned);
        foreach (var record in records)
            draft.Say(record);
        return draft;
    }

    private void Take(LayoutDraft draft)
    {
        _words.AddRange(draft.Words);
        (_state, _planned) = (draft.State, draft.Planned);
    }
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>The records planned so far, and where they leave the machine: a job starts at (0, 0) on layer 0 with head a.</summary>
internal sealed class JobDraft(IdleTimes times, RecordWidth width, CancellationToken ended)
{
    private Cell _at;
    private bool _isRisen = true;

    /// <summary>The records so far.</summary>
    public List<Record> Records { get; } = [];

    /// <summary>The head in use.</summary>
    public Head Head { get; private set; } = Head.A;

    /// <summary>Works a part, or passes an empty layer without going sideways.</summary>
    /// <param name="part">The part.</param>
    /// <param name="comesBack">Whether it is done again right after, from where it ends.</param>
    /// <param name="steps">How much work may be spent on its order.</param>
    public void Work(Part part, bool comesBack, long steps)
    {
        var mustRise = part.StartsLayer && !_isRisen;
        _isRisen = false;
        if (part.Blocks.Count == 0 && mustRise)
            Add(Record.Go(Head, _at, rise: true), Head, _at);
        foreach (var (block, stroke) in Route.Of(part.Blocks, _at, part.Head, comesBack, times, new Effort(steps, ended)))
        {
            Add(block.Record(stroke, width, part.Head, mustRise), part.Head, stroke.Last);
            mustRise = false;
        }
    }

    /// <summary>Goes up to the next layer.</summary>
    public void Rise()
    {
        Add(Record.Go(Head, _at, rise: true), Head, _at);
        _isRisen = true;
    }

    /// <summary>Does the last records some more times.</summary>
    public void Again(int records, int times) => Records.Add(Record.Again(width, records, times));

    private void Add(Record record, Head head, Cell last)
    {
        Records.Add(record);
        (Head, _at) = (head, last);
    }
}

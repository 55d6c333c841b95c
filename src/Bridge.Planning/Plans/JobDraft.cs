using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>The records planned so far, and where they leave the machine: a job starts at (0, 0) on layer 0 with head a.</summary>
internal sealed class JobDraft(RecordWidth width)
{
    private Cell _at;
    private bool _mustRise;

    /// <summary>The records so far.</summary>
    public List<Record> Records { get; } = [];

    /// <summary>The head in use.</summary>
    public Head Head { get; private set; } = Head.A;

    /// <summary>Goes to the next layer with the next record.</summary>
    public void Rise() => _mustRise = true;

    /// <summary>Leaves a layer empty: a rise still due is made without going sideways.</summary>
    public void Pass()
    {
        if (_mustRise)
            Add(Record.Go(Head, _at, rise: true), Head, _at);
    }

    /// <summary>Works blocks with a head, the nearest first.</summary>
    public void Work(IReadOnlyList<Block> blocks, Head head)
    {
        var route = new Route(blocks);
        while (route.TryTakeNearest(_at, out var block, out var corner))
        {
            var (record, last) = block.From(corner, width, head, _mustRise);
            Add(record, head, last);
        }
    }

    private void Add(Record record, Head head, Cell last)
    {
        Records.Add(record);
        (Head, _at, _mustRise) = (head, last, false);
    }
}

using System.Diagnostics;

namespace Bridge.Jobs;

/// <summary>
/// Executes an image record by record, `again` unrolled, from (0, 0) on layer 0 with head a. A record that may not be done stops it
/// with a fault before any of its cells is given.
/// </summary>
public sealed class PassReader(Image image, Grid grid)
{
    private AgainLoop _loop = new(image);
    private Position _position;
    private int _next;
    private int _passes;
    private long _cells;

    /// <summary>The most records that one job may execute, repeats counted: 10 million.</summary>
    public const int MostPasses = 10_000_000;

    /// <summary>The most cells that one job may work, repeats counted: 1000 million, eleven days at a millisecond each.</summary>
    public const long MostCells = 1_000_000_000;

    /// <summary>What stopped it; null while it goes on and when the job is complete.</summary>
    public JobFault? Fault { get; private set; }

    /// <summary>Where the job stands.</summary>
    public Position Position => _position;

    /// <summary>The record that comes next; the count of records behind the last.</summary>
    public int Next => _next;

    /// <summary>What is being repeated; null outside an `again`.</summary>
    public Repeat? Repeat => _loop.Present;

    /// <summary>Another reader at the same place, to go on by itself.</summary>
    public PassReader Copy()
    {
        var copy = (PassReader)MemberwiseClone();
        copy._loop = _loop.Copy();
        return copy;
    }

    /// <summary>Goes on at a record of the image, standing somewhere; what was being repeated, and what had stopped it, are forgotten.</summary>
    public void GoOnAt(int index, Position position)
    {
        Debug.Assert(index >= 0 && index < image.Count, "The image has the record.");
        (_next, _position, Fault) = (index, position, null);
        _loop.Leave();
    }

    /// <summary>Takes the next record if it is an `again` that may be done: the first that it repeats is then the next.</summary>
    public bool TryTakeAgain()
    {
        if (Fault is not null || _next >= image.Count || image[_next] is not { Verb: Verb.Again } record)
            return false;
        var index = _next;
        Fault = FaultOf(index, record) ?? BoundOf(index) ?? _loop.Enter(index, record, out _next);
        return Fault is null;
    }

    /// <summary>Executes the next record; false at the end of the job and on a fault.</summary>
    public bool TryNext(out Pass pass)
    {
        pass = default;
        while (TryTakeAgain())
        {
        }

        if (Fault is not null || _next >= image.Count)
            return false;
        var (index, record) = (_next, image[_next]);
        Fault = FaultOf(index, record) ?? BoundOf(index);
        if (Fault is not null || record.Verb == Verb.End)
            return false;
        var made = PassOf(index, record, _position);
        Fault = FaultOf(made) ?? BoundOf(made);
        if (Fault is not null)
            return false;
        _position = made.After;
        _next = _loop.After(index);
        pass = made;
        return true;
    }

    /// <summary>What one record does from a position, whether or not it may.</summary>
    public static Pass PassOf(RecordWidth width, int index, Record record, Position before)
    {
        var layer = before.Layer + (record.Rise ? 1 : 0);
        if (record.Verb is Verb.Wait or Verb.End)
            return new Pass(index, record, before, before with { Layer = layer }, CellPath.None(before.Cell));
        var entry = new Position(record.Verb == Verb.Line ? before.Cell : record.At, layer, record.Head);
        var work = record.Verb switch
        {
            Verb.Row => CellPath.Row(record.At, record.Heading, record.PairPq(width) + 1),
            Verb.Patch => CellPath.Patch(record.At, record.P + 1, record.Q + 1, (PatchWay)record.Heading),
            Verb.Line => CellPath.Line(before.Cell, record.At),
            _ => CellPath.None(record.At),
        };
        return new Pass(index, record, before, entry, work);
    }

    private Pass PassOf(int index, Record record, Position before) => PassOf(image.Width, index, record, before);

    private JobFault? BoundOf(int index) => _passes++ < MostPasses ? null
        : JobFault.Of(JobRule.TooLong, index, image.Width, $"more than {MostPasses} executed records", $"up to {MostPasses}",
            "An again with a wrong count? Correct it, or split the job.");

    private JobFault? BoundOf(Pass pass) => (_cells += pass.Work.Cells) <= MostCells ? null
        : JobFault.Of(JobRule.TooLong, pass.Index, image.Width, $"more than {MostCells} cells worked", $"up to {MostCells}",
            "An again with a wrong count? Correct it, or split the job.");

    private JobFault? FaultOf(int index, Record record)
    {
        if (record.Verb == Verb.None)
            return JobFault.Of(JobRule.VerbNone, index, image.Width, "verb 7 (none)", "verbs 0 to 6",
                "Erased or damaged memory: write the image again.");
        var reserved = ReservedBits.SetIn(record);
        return reserved.Length == 0 ? null
            : JobFault.Of(JobRule.ReservedBits, index, image.Width, $"bits set in {reserved}",
                $"zero: {record.Verb.ToString().ToLowerInvariant()} does not use them", "A wrong bit: correct the record or plan the job again.");
    }

    private JobFault? FaultOf(Pass pass)
    {
        if (pass.Entry.Layer >= grid.Layers)
            return JobFault.Of(JobRule.AboveTopLayer, pass.Index, image.Width, $"a rise to layer {pass.Entry.Layer}",
                $"layers 0 to {grid.Layers - 1}", "Plan the shape with fewer layers.");
        var (one, other) = pass.Work.Corners;
        if (grid.Holds(one) && grid.Holds(other))
            return null;
        return JobFault.Of(JobRule.OffGrid, pass.Index, image.Width,
            $"{RecordWords.Meaning(image.Width, pass.Record)}, which reaches {(grid.Holds(one) ? other : one)}",
            $"x 0 to {grid.X - 1}, y 0 to {grid.Y - 1}", "Correct the record or plan the job for this grid.");
    }
}

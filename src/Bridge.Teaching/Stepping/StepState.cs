using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>All that stepping remembers at one place of a job but the picture: small, and copied for every snapshot.</summary>
internal sealed class StepState(PassReader reader)
{
    private CellPathEnumerator _cells = CellPath.None(default).GetEnumerator();

    /// <summary>Where the job is read on.</summary>
    public PassReader Reader { get; } = reader;

    /// <summary>The record that is being done; null between two.</summary>
    public Pass? Pass { get; private set; }

    /// <summary>Cells of it that are worked.</summary>
    public long CellsDone { get; private set; }

    /// <summary>The smallest steps that were taken: a cell worked, or a record without cells done.</summary>
    public long Ticks { get; private set; }

    /// <summary>Records that were done, each `again` that was taken and each jump among them.</summary>
    public long Steps { get; private set; }

    /// <summary>Cells worked by head a and head b.</summary>
    public (long A, long B) Cells { get; private set; }

    /// <summary>The record that was last begun; -1 before the first.</summary>
    public int Index { get; private set; } = -1;

    /// <summary>Whether the last smallest step worked a cell.</summary>
    public bool HasWorked { get; private set; }

    /// <summary>Where the machine is.</summary>
    public Position Position => Pass is not { } pass ? Reader.Position
        : CellsDone == 0 ? pass.Entry : pass.Entry with { Cell = _cells.Current };

    public StepState Copy() => new(Reader.Copy())
    {
        Pass = Pass, _cells = _cells, CellsDone = CellsDone, Ticks = Ticks, Steps = Steps, Cells = Cells, Index = Index, HasWorked = HasWorked,
    };

    /// <summary>Takes an `again` that is next, as a step of its own.</summary>
    public bool TryTakeAgain()
    {
        var index = Reader.Next;
        if (Pass is not null || !Reader.TryTakeAgain())
            return false;
        (Index, HasWorked) = (index, false);
        Ticks++;
        Steps++;
        return true;
    }

    /// <summary>Begins the next record; false at the end of the job and where it may not be done.</summary>
    public bool TryBegin()
    {
        if (!Reader.TryNext(out var pass))
            return false;
        (Pass, _cells, CellsDone, Index) = (pass, pass.Work.GetEnumerator(), 0, pass.Index);
        return true;
    }

    /// <summary>Works the next cells of the record that is being done, at most so many, into a picture; or does all of one without cells.</summary>
    public void Work(long most, StepPicture picture)
    {
        var (pass, cells, worked) = (Pass!.Value, _cells, 0L);
        while (worked < most && cells.MoveNext())
        {
            picture.Add(cells.Current, pass.Entry.Head);
            worked++;
        }

        (_cells, HasWorked, CellsDone) = (cells, worked > 0, CellsDone + worked);
        Ticks += Math.Max(1, worked);
        Cells = pass.Entry.Head == Head.A ? (Cells.A + worked, Cells.B) : (Cells.A, Cells.B + worked);
        if (CellsDone < pass.Work.Cells)
            return;
        (Pass, CellsDone) = (null, 0);
        Steps++;
    }

    /// <summary>Goes on at another record from where the machine is.</summary>
    public void Jump(int index)
    {
        Reader.GoOnAt(index, Position);
        (Pass, CellsDone, HasWorked) = (null, 0, false);
        Ticks++;
        Steps++;
    }
}

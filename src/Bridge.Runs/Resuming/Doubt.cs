using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>What is not known of a run's work: a record that was being executed, from one of its cells on.</summary>
/// <param name="Redo">The place to go on from where the cells in doubt are to be worked again.</param>
/// <param name="Skip">The place to go on from where they are to be left as they are.</param>
/// <param name="Pass">The record in doubt.</param>
/// <param name="Cells">Its cells in doubt: the first and the last, and how many.</param>
/// <param name="RecordsAfter">Records after it that had been sent; it is not known either whether they were begun.</param>
public sealed record Doubt(JobPlace Redo, JobPlace Skip, Pass Pass, (Cell First, Cell Last, long Count) Cells, long RecordsAfter)
{
    /// <summary>One cell: a machine that stopped at once may have been on its way to it.</summary>
    public static Doubt? OfNextCell(JobPlace known, Image image, Grid grid) => Of(known, image, grid, most: 1, recordsAfter: 0);

    /// <summary>The rest of the record that was begun, where it is only known how much had been sent: of one that a way back goes on in, only some.</summary>
    public static Doubt? OfSent(JobPlace known, JobPlace sent, Image image, Grid grid) => known < sent
        ? Of(known, image, grid, known.Records == sent.Records ? sent.Cells - known.Cells : long.MaxValue, Math.Max(0, sent.Records - known.Records - 1))
        : null;

    private static Doubt? Of(JobPlace known, Image image, Grid grid, long most, long recordsAfter)
    {
        var passes = new PassReader(image, grid);
        Pass pass = default;
        for (var record = 0L; record <= known.Records; record++)
            if (!passes.TryNext(out pass))
                return null;
        var left = pass.Work.Cells - known.Cells;
        if (left <= 0 && recordsAfter == 0)
            return null;
        var count = Math.Min(Math.Max(0, left), most);
        var cells = pass.Work.Cells > 0 ? CellsOf(pass, known.Cells, count) : (pass.Entry.Cell, pass.Entry.Cell, 0);
        return new Doubt(known, count < left ? known with { Cells = known.Cells + count } : new JobPlace(known.Records + 1, 0), pass, cells, recordsAfter);
    }

    private static (Cell First, Cell Last, long Count) CellsOf(Pass pass, long from, long count)
    {
        var (first, last) = (pass.Work.Last, pass.Work.Last);
        var index = 0L;
        foreach (var cell in pass.Work)
        {
            if (index == from)
                first = cell;
            if (index == from + count - 1)
                last = cell;
            index++;
        }

        return (first, last, count);
    }
}

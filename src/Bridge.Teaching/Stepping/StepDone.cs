using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>What one step did.</summary>
/// <param name="Index">The record.</param>
/// <param name="Pass">What it does as a whole; null where an `again` was taken.</param>
/// <param name="FirstCell">Cells of it that had been worked before.</param>
/// <param name="Cells">Cells worked by this step.</param>
public readonly record struct StepDone(int Index, Pass? Pass, long FirstCell, long Cells)
{
    /// <summary>Whether it did the record from its beginning to its end.</summary>
    public bool IsWhole => Pass is { } pass && FirstCell == 0 && Cells == pass.Work.Cells;

    /// <summary>The cells worked by this step, in order.</summary>
    public IEnumerable<Cell> Worked()
    {
        if (Pass is not { } pass)
            yield break;
        var index = 0L;
        foreach (var cell in pass.Work)
        {
            if (index >= FirstCell + Cells)
                yield break;
            if (index++ >= FirstCell)
                yield return cell;
        }
    }

    internal static StepDone OfAgain(int index) => new(index, null, 0, 0);

    internal static StepDone OfWork(Pass pass, long first, long cells) => new(pass.Index, pass, first, cells);
}

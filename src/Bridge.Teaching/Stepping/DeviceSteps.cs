using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>
/// The records that a device is sent for a step: the record itself where all of it is done, else a row of one cell for each. Where a cell may be worked
/// only once, those that are there already are passed over.
/// </summary>
internal static class DeviceSteps
{
    /// <summary>Each record, where it leaves the machine, and the cells that it works.</summary>
    public static IEnumerable<(Record Record, Position To, IEnumerable<Cell> Works)> Of(StepDone done, Machine machine, WorkedCells worked)
    {
        if (done.Pass is not { } pass)
            return [];
        return done.IsWhole && (machine.MayOverprint || !done.Worked().Any(cell => IsThere(worked, pass.Entry with { Cell = cell })))
            ? [(Sent(machine.Width, pass), pass.After, done.Worked())]
            : CellByCell(done, pass, machine, worked);
    }

    private static IEnumerable<(Record Record, Position To, IEnumerable<Cell> Works)> CellByCell(
        StepDone done, Pass pass, Machine machine, WorkedCells worked)
    {
        var rises = done.FirstCell == 0 && pass.Record.Rise;
        foreach (var cell in done.Worked())
        {
            var (to, head) = (pass.Entry with { Cell = cell }, pass.Entry.Head);
            yield return machine.MayOverprint || !IsThere(worked, to)
                ? (Record.Row(machine.Width, head, cell, 0, 1, rises), to, [cell])
                : (Record.Go(head, cell, rises), to, []);
            rises = false;
        }
    }

    // Who steps is the operator that such a record waits for.
    private static Record Sent(RecordWidth width, Pass pass) =>
        pass.Record is { Verb: Verb.Wait, Heading: 1 } ? Record.Wait(width, 0, pass.Record.Rise) : pass.Record;

    private static bool IsThere(WorkedCells worked, Position at) => worked.Has(at.Cell, at.Layer, Head.A) || worked.Has(at.Cell, at.Layer, Head.B);
}

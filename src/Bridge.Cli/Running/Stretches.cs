using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Cli;

/// <summary>A run from one change of layer to the next, where the machine finds its zero anew at each, to its end. Disposes of its sessions.</summary>
internal sealed class Stretches(RunSession first, IReadOnlyList<LayerChange> changes, bool isMeasured) : IDisposable
{
    /// <summary>The session of the present stretch; of the last one once the run has ended.</summary>
    public RunSession Session { get; private set; } = first;

    /// <summary>The record before which a stretch that begins at another one ends for now; null for the job's end.</summary>
    public static long? Until(IReadOnlyList<LayerChange> changes, bool isMeasured, long begins) =>
        isMeasured ? changes.FirstOrDefault(change => change.Record > begins && change.InTheWay is null)?.Record : null;

    public void Dispose() => Session.Dispose();

    /// <summary>Runs to the end; to the next change of layer where the device was told to stop there and the machine is not to reference at it.</summary>
    /// <param name="line">An open line to the device.</param>
    /// <param name="again">Has the machine reference again after a run that is complete.</param>
    public async Task<RunEnd> RunAsync(ILine line, Func<RunSession, WorkedCells, Task<ReferencedAgain?>> again)
    {
        while (true)
        {
            var end = await Session.RunAsync(line, worked => again(Session, worked)).ConfigureAwait(false);
            if (end.Outcome != RunOutcome.LayerDone || !isMeasured) // a device may have been told to end there by a part of the run that was to measure
                return end;
            var begun = changes.Single(change => change.Record == Session.Controller.Progress.Records);
            Session = Session.AfterLayer(begun.Layer, Until(changes, isMeasured, begun.Record));
        }
    }
}

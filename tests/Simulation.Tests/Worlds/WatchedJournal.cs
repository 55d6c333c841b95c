using Bridge.Runs;
using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>
/// A run's journal, held against the gantry: it may not claim more than was worked, nor less where the machine is at rest and was heard, nor let the
/// board have what it does not call sent.
/// </summary>
internal sealed class WatchedJournal(World world, IJournal journal) : IJournal
{
    private static readonly string[] OfRest =
        [nameof(MachineState.Held), nameof(MachineState.Stopped), nameof(MachineState.Complete), nameof(MachineState.Aborted)];

    public bool TryAppend(JournalEntry entry, out string why)
    {
        if (entry is { State: nameof(MachineState.Held), Cells: > 0 })
            entry = entry with { Cells = entry.Cells + (world.Plant == Plant.ClaimsTooLittle ? -1 : world.Plant == Plant.ClaimsTooMuch ? 1 : 0) };
        CheckClaim(entry);
        world.WaitForDisk();
        why = "";
        var isLost = world.Plant == Plant.EntriesAreLost && entry.Kind == JournalKind.Sent;
        if (!isLost && !journal.TryAppend(entry, out why))
            return false;
        if (world.Story is not null)
            world.Tell($"journal {entry.N} {entry.Kind} {entry.State}{entry.Command}{entry.Outcome} {entry.Records} {entry.Cells} {entry.Cause}");
        if (entry.Kind == JournalKind.Sent)
            world.Watch.JournalSent = entry.Records!.Value;
        else if (entry.Kind == JournalKind.Begin)
            Attempt.BeginStretch(world, (ushort)entry.Run!.Value, JobPlace.Beginning);
        else if (entry.Kind == JournalKind.Restart)
            Restart(entry);
        return true;
    }

    private void Restart(JournalEntry entry)
    {
        Attempt.BeginStretch(world, (ushort)entry.Run!.Value, new JobPlace(entry.Records!.Value, entry.Cells!.Value));
        Fail.If(!world.Settled.IsTold(entry.Doubt), $"the journal tells {entry.Doubt}, and it was {world.Settled}");
    }

    private void CheckClaim(JournalEntry entry)
    {
        if (entry.Kind is not (JournalKind.State or JournalKind.Done or JournalKind.End) || entry.Records is not { } records
            || world.Watch.Stretch is not { } stretch)
            return;
        var claimed = world.Job.CellsBefore(stretch.Course.PlaceOf(records, entry.Cells ?? 0));
        Fail.If(claimed > world.Watch.Truth, $"the journal claims {claimed} cells, and {world.Watch.Truth} were worked");
        Fail.If(entry.Outcome == nameof(RunOutcome.Complete) && claimed != world.Job.InOrder.Count, $"the journal calls complete what is not");
        if (world.Watch.IsHeardAtRest && TellsOfRest(entry))
            Fail.If(claimed != world.Watch.Truth,
                $"{entry.Kind} {entry.State}{entry.Outcome} claims {claimed} cells of a machine at rest, and {world.Watch.Truth} were worked");
    }

    // Of the rest that the machine is in: what could not be written at once tells of what was before, and a lost line of what was heard on it.
    private bool TellsOfRest(JournalEntry entry) =>
        (entry.Kind == JournalKind.End && entry.Outcome != nameof(RunOutcome.LineLost))
        || (OfRest.Contains(entry.State) && entry.State == world.Board.State.ToString());
}

using Bridge.Runs;

namespace Simulation.Tests;

/// <summary>A run's journal, held against the gantry: it may not claim more than was worked, nor let the board have what it does not call sent.</summary>
internal sealed class WatchedJournal(World world, IJournal journal) : IJournal
{
    public bool TryAppend(JournalEntry entry, out string why)
    {
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
        else if (entry.Kind is JournalKind.Begin or JournalKind.Restart)
            Attempt.BeginStretch(world, (ushort)entry.Run!.Value,
                entry.Kind == JournalKind.Begin ? default : new JobPlace(entry.Records!.Value, entry.Cells!.Value));
        return true;
    }

    private void CheckClaim(JournalEntry entry)
    {
        if (entry.Kind is not (JournalKind.State or JournalKind.Done or JournalKind.End) || entry.Records is not { } records
            || world.Watch.Stretch is not { } stretch)
            return;
        var claimed = world.Job.CellsBefore(stretch.Course.PlaceOf(records, entry.Cells ?? 0));
        Fail.If(claimed > world.Watch.Truth, $"the journal claims {claimed} cells, and {world.Watch.Truth} were worked");
        Fail.If(entry.Outcome == nameof(RunOutcome.Complete) && claimed != world.Job.InOrder.Count, $"the journal calls complete what is not");
    }
}

namespace Bridge.Runs;

/// <summary>Where a run writes what happened. What has been appended is on the disk.</summary>
public interface IJournal
{
    /// <summary>Appends an entry and waits until it is written through. False, and nothing has been appended, where that cannot be done.</summary>
    bool TryAppend(JournalEntry entry, out string why);
}

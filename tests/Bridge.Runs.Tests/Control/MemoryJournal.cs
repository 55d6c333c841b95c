namespace Bridge.Runs.Tests;

/// <summary>A journal in memory that fails where it is told to.</summary>
internal sealed class MemoryJournal : IJournal
{
    private int _tries;

    public List<JournalEntry> Entries { get; } = [];

    /// <summary>Whether the write fails, by its number from 0 and its entry.</summary>
    public Func<int, JournalEntry, bool> Fails { get; set; } = (_, _) => false;

    /// <summary>What looks at each entry as it is written.</summary>
    public Action<JournalEntry>? Written { get; set; }

    /// <summary>Writes that failed.</summary>
    public int Failures { get; private set; }

    /// <summary>Records that the journal says were sent.</summary>
    public long Sent { get; private set; }

    public bool TryAppend(JournalEntry entry, out string why)
    {
        why = "no room";
        if (Fails(_tries++, entry))
        {
            Failures++;
            return false;
        }

        if (entry.Kind == JournalKind.Sent)
            Sent = entry.Records!.Value;
        Entries.Add(entry);
        Written?.Invoke(entry);
        return true;
    }
}

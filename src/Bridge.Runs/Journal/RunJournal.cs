namespace Bridge.Runs;

/// <summary>
/// A run's own hand on its journal: numbers the entries, and keeps those that could not be written until they can. While any is kept
/// nothing new may be sent to the device.
/// </summary>
internal sealed class RunJournal(IJournal journal)
{
    private static readonly TimeSpan RetryInterval = TimeSpan.FromSeconds(1);

    private readonly Queue<JournalEntry> _unwritten = new();
    private long _number;
    private TimeSpan _retryAt;

    /// <summary>The most entries that are kept for later. What a held device still reports is far fewer.</summary>
    public const int MostUnwritten = 1_000;

    /// <summary>Whether everything is on the disk.</summary>
    public bool IsWritten => _unwritten.Count == 0;

    /// <summary>Why the last entry could not be written.</summary>
    public string Why { get; private set; } = "";

    /// <summary>When writing is next tried again; null while everything is written.</summary>
    public TimeSpan? NextDeadline => IsWritten ? null : _retryAt;

    /// <summary>Writes an entry, or keeps it for later.</summary>
    public void Write(TimeSpan now, JournalKind kind, Func<JournalEntry, JournalEntry> fill)
    {
        if (_unwritten.Count >= MostUnwritten)
            return;
        _unwritten.Enqueue(fill(new JournalEntry(_number++, Math.Round(now.TotalSeconds, 4), kind)));
        if (_unwritten.Count == 1)
            WriteKept(now);
    }

    /// <summary>Tries again what is due.</summary>
    public void Tick(TimeSpan now)
    {
        if (!IsWritten && now >= _retryAt)
            WriteKept(now);
    }

    private void WriteKept(TimeSpan now)
    {
        while (_unwritten.TryPeek(out var entry))
        {
            if (!journal.TryAppend(entry, out var why))
            {
                Why = why;
                _retryAt = now + RetryInterval;
                return;
            }

            _unwritten.Dequeue();
        }
    }
}

using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>
/// A run's own hand on its journal: numbers the entries, and keeps those that could not be written until they can. While any is kept
/// nothing that moves the machine may be sent to it.
/// </summary>
internal sealed class RunJournal(IJournal journal, long entriesBefore = 0)
{
    private static readonly TimeSpan RetryInterval = TimeSpan.FromSeconds(1);

    private readonly Queue<JournalEntry> _unwritten = new();
    private long _number = entriesBefore;
    private TimeSpan _retryAt;

    /// <summary>The most entries that are kept for later; the end is kept beyond it. What a held device still reports is far fewer.</summary>
    public const int MostUnwritten = 1_000;

    /// <summary>Whether everything is on the disk.</summary>
    public bool IsWritten => _unwritten.Count == 0;

    /// <summary>Why the last entry could not be written.</summary>
    public string Why { get; private set; } = "";

    /// <summary>When writing is next tried again; null while everything is written.</summary>
    public TimeSpan? NextDeadline => IsWritten ? null : _retryAt;

    public void Begin(TimeSpan now, ProvedJob job, RunSettings settings) => Write(New(now, JournalKind.Begin) with
    {
        Format = FileJournal.Format,
        At = settings.At,
        Program = ProgramVersion.Text,
        Run = settings.RunId,
        Machine = job.Machine.Name,
        MachineDigest = job.Machine.Digest.ToString(),
        JobDigest = job.JobDigest,
        Device = settings.Device,
        Records = job.RecordsToSend,
        Until = settings.Until,
    }, now);

    /// <summary>The run goes on, in another program or on a device that was restarted.</summary>
    public void GoOn(TimeSpan now, Resumption resumed, RunSettings settings)
    {
        if (resumed.SentBefore is { } sent)
        {
            Write(OfProgram(New(now, JournalKind.TakeUp) with { Records = sent }, settings), now);
            return;
        }

        var start = resumed.Course.Start;
        Write(New(now, JournalKind.Done) with { Records = resumed.DoneBefore.Records, Cells = resumed.DoneBefore.Cells }, now);
        Write(OfProgram(New(now, JournalKind.Restart) with
        {
            Records = start.Records,
            Cells = start.Cells,
            Until = settings.Until,
            Doubt = resumed.Settled,
        }, settings), now);
    }

    /// <summary>What the device says that it is.</summary>
    public void Device(TimeSpan now, Welcome welcome) => Write(New(now, JournalKind.Device) with
    {
        Firmware = $"{welcome.FirmwareMajor}.{welcome.FirmwareMinor}",
        Wire = welcome.WireVersion,
        Reset = welcome.ResetReason.ToString(),
    }, now);

    public void Command(TimeSpan now, MachineCommand command) =>
        Write(New(now, JournalKind.Command) with { Command = command.ToString() }, now);

    public void Sent(TimeSpan now, long records) => Write(New(now, JournalKind.Sent) with { Records = records }, now);

    public void State(TimeSpan now, DeviceView device) => Write(WithWork(New(now, JournalKind.State), device) with
    {
        State = device.State.ToString(),
        Cause = device.Cause == StateCause.None ? null : device.Cause.ToString(),
        Position = device.Position,
    }, now);

    /// <summary>Writes how far the run is, unless older entries wait: the next change of state says it too.</summary>
    public void Done(TimeSpan now, DeviceView device)
    {
        if (IsWritten)
            Write(WithWork(New(now, JournalKind.Done), device) with { Position = device.Position }, now);
    }

    /// <summary>The end.</summary>
    /// <param name="now">When.</param>
    /// <param name="device">The device.</param>
    /// <param name="outcome">How it ended.</param>
    /// <param name="isKnown">
    /// Whether the device itself said how far it came; else that stands in an entry before the end, and the end says nothing of it.
    /// </param>
    public void End(TimeSpan now, DeviceView device, RunOutcome outcome, bool isKnown)
    {
        if (!IsWritten)
            WriteKept(now); // there is no later
        if (!isKnown)
            Done(now, device);
        var end = New(now, JournalKind.End) with { Outcome = outcome.ToString() };
        Write(isKnown ? WithWork(end, device) : end, now);
    }

    /// <summary>How far the counts were off when the machine referenced again: before a layer, or, where none is given, after the run.</summary>
    public void Referenced(TimeSpan now, IReadOnlyList<LostSteps> lost, TimeSpan took, int? layer = null) =>
        Write(New(now, JournalKind.Referenced) with { Lost = lost, Layer = layer, Took = Math.Round(took.TotalSeconds, 3) }, now);

    /// <summary>Closes the record, with the digests of the files beside it.</summary>
    public void Seal(TimeSpan now, DateTimeOffset? at, IReadOnlyDictionary<string, string> files) =>
        Write(New(now, JournalKind.Sealed) with { At = at, Program = ProgramVersion.Text, Files = files }, now);

    /// <summary>Tries again what is due.</summary>
    public void Tick(TimeSpan now)
    {
        if (!IsWritten && now >= _retryAt)
            WriteKept(now);
    }

    private JournalEntry New(TimeSpan now, JournalKind kind) => new(_number, Math.Round(now.TotalSeconds, 4), kind);

    private static JournalEntry OfProgram(JournalEntry entry, RunSettings settings) =>
        entry with { At = settings.At, Program = ProgramVersion.Text, Run = settings.RunId, Device = settings.Device };

    private static JournalEntry WithWork(JournalEntry entry, DeviceView device) =>
        device.HasRun ? entry with { Records = device.RecordsDone, Cells = device.CellsDone } : entry;

    private void Write(JournalEntry entry, TimeSpan now)
    {
        if (_unwritten.Count >= MostUnwritten && entry.Kind != JournalKind.End)
            return;
        _number++;
        _unwritten.Enqueue(entry);
        if (_unwritten.Count == 1)
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

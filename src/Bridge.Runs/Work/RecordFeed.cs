using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>
/// Sends a run's records as the device has room for them. The journal says that records are sent before they are, so what was sent
/// is known whatever happens next.
/// </summary>
internal sealed class RecordFeed(RecordWidth width, Course course, long records, RunJournal journal, Dialogue dialogue, DeviceView device)
{
    private readonly RecordSource _source = new(course);
    private readonly byte[] _octets = new byte[Wire.Records.MaxOctets];
    private int _loaded; // records in the buffer, told to the journal and not yet sent

    /// <summary>Records sent so far.</summary>
    public uint Sent => _source.Taken - (uint)_loaded;

    /// <summary>Leaves out the first records, which the device has taken already.</summary>
    public void Skip(uint records) => _source.Skip(records);

    /// <summary>Sends what can be sent now.</summary>
    public void Tick(TimeSpan now)
    {
        while (device.TakesRecords && dialogue.CanSendRecords && journal.IsWritten)
        {
            if (_loaded == 0 && !TryLoad(now))
                return;
            if (!journal.IsWritten)
                return;
            var message = new Wire.Records(Sent, _octets.AsSpan(0, _loaded * width.Bytes));
            _loaded = 0;
            dialogue.Send(message, now);
        }
    }

    // Records go out by the quarter of the queue: one by one, each would cost a frame and an entry of the journal.
    private bool TryLoad(TimeSpan now)
    {
        var left = records - _source.Taken;
        var room = Math.Min(left, device.RecordsLimit - (long)_source.Taken);
        var least = Math.Min(left, Math.Clamp(dialogue.QueueRecords / 4, 1, Wire.Records.MaxCount(width.Bytes)));
        if (room < Math.Max(1, least))
            return false;
        _loaded = _source.Take(_octets, room);
        journal.Sent(now, _source.Taken);
        return _loaded > 0;
    }
}

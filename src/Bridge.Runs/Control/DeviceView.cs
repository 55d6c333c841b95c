using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>What the device last said of itself, as far as it can be about this run.</summary>
internal sealed class DeviceView(ushort runId)
{
    /// <summary>The last Status that was believed; null before the first.</summary>
    public Status? Last { get; private set; }

    /// <summary>Whether the device has taken this run: its counters are then the run's.</summary>
    public bool HasRun { get; set; }

    public MachineState State => Last?.State ?? MachineState.Undefined;

    public StateCause Cause => Last?.Cause ?? StateCause.None;

    /// <summary>Records of this run that were put into the device's queue.</summary>
    public uint RecordsTaken => HasRun ? Last?.RecordsTaken ?? 0 : 0;

    /// <summary>Records of this run that were executed.</summary>
    public uint RecordsDone => HasRun ? Last?.RecordsDone ?? 0 : 0;

    /// <summary>Cells worked of the record after those.</summary>
    public uint CellsDone => HasRun ? Last?.CellsDone ?? 0 : 0;

    /// <summary>Records of this run that may be sent: those with an index below it.</summary>
    public uint RecordsLimit => HasRun ? Last?.RecordsLimit ?? 0 : 0;

    /// <summary>Whether the device takes records of this run.</summary>
    public bool TakesRecords => HasRun && State is MachineState.Idle or MachineState.Starting or MachineState.Execute
        or MachineState.Suspending or MachineState.Suspended or MachineState.Unsuspending
        or MachineState.Holding or MachineState.Held or MachineState.Unholding;

    /// <summary>Where the machine is: x, y, layer, head.</summary>
    public string Position => Last is { } at ? $"{at.X} {at.Y} {at.Layer} {"ab"[at.Head]}" : "";

    /// <summary>Takes a Status. False, and nothing changes, if it is about another run or older than what is known.</summary>
    public bool Take(in Status status)
    {
        if (HasRun && (status.RunId != runId || IsOlder(status)))
            return false;
        Last = status;
        return true;
    }

    private bool IsOlder(in Status status) => status.RecordsTaken < RecordsTaken || status.RecordsLimit < RecordsLimit
        || (status.RecordsDone, status.CellsDone).CompareTo((RecordsDone, CellsDone)) < 0;
}

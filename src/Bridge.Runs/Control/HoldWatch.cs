using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>Watches for what holds the machine: a journal that cannot be written, a wait for the operator, or the machine itself.</summary>
internal sealed class HoldWatch(RunSettings settings, RunJournal journal, DeviceView device, Steering steering, IRunWatcher watcher)
{
    private bool _journalFailed;
    private TimeSpan? _heldSince;

    /// <summary>When a held machine has waited too long for its operator.</summary>
    public TimeSpan NextDeadline => _heldSince + settings.HeldPatience ?? TimeSpan.MaxValue;

    /// <summary>Takes note of a change of state and says what a person should know of it.</summary>
    public void StateChanged(TimeSpan now)
    {
        _heldSince = device.State == MachineState.Held ? now : null;
        if (device.State != MachineState.Held || device.Cause == StateCause.Operator)
            return;
        if (device.Cause != StateCause.OperatorWait)
            watcher.Told($"The machine holds: {StateWords.Of(device.Cause)}. No work is in doubt. {StateWords.WhatToDo(device.Cause)} Then go on or stop.");
        else if (!settings.GoesOnAtWaits)
            watcher.Told("The job waits for you: do what it waits for, then go on.");
    }

    /// <summary>Holds or goes on as it must. Gives the run's end if the machine was held too long, else null.</summary>
    public RunEnd? Tick(TimeSpan now)
    {
        WatchJournal();
        if (device is { State: MachineState.Held, Cause: StateCause.OperatorWait } && settings.GoesOnAtWaits && steering.IsIdle && journal.IsWritten)
            steering.Want(MachineCommand.Unhold);
        if (now < NextDeadline)
            return null;
        return _journalFailed ? RunEnds.HeldForJournal() : RunEnds.HeldTooLong(device.Cause);
    }

    private void WatchJournal()
    {
        if (_journalFailed == !journal.IsWritten || device.Last is null)
            return;
        _journalFailed = !journal.IsWritten;
        if (!_journalFailed)
        {
            watcher.Told("The journal can be written again. The machine stays held until it is told to go on.");
            return;
        }

        watcher.Told($"The journal cannot be written ({journal.Why}): the machine is told to hold. Make room on the disk and go on, or stop the run.");
        steering.Want(MachineCommand.Hold);
    }
}

using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>
/// Hold, Unhold and Stop: what is wanted of the machine beside the procedure. It is kept until the machine does it, through states that pass
/// and answers that are late, and one that was wanted last takes the place of the one before; but nothing takes the place of Stop.
/// </summary>
internal sealed class Steering(Dialogue dialogue, DeviceView device, RunJournal journal, IRunWatcher watcher)
{
    // A command is refused when the state changed while it was on its way; a device that refuses it so often means it.
    private const int MostTries = 8;

    private MachineCommand? _wanted;
    private int _tries;

    public bool IsStopping => EndWanted is not null;

    /// <summary>Whether the machine is to stand still until someone lets it go on.</summary>
    public bool HoldIsWanted => _wanted == MachineCommand.Hold;

    /// <summary>Whether nothing is wanted but that the run goes on.</summary>
    public bool IsIdle => _wanted is null;

    /// <summary>How the run is to end, once <see cref="Stop"/> has been asked for; null before.</summary>
    public RunEnd? EndWanted { get; private set; }

    /// <summary>The run's end if the machine has stopped because of <see cref="Stop"/>; else null.</summary>
    public RunEnd? End => dialogue.IsAnswered && device.State is MachineState.Stopped or MachineState.Aborted ? EndWanted : null;

    /// <summary>Wants the machine held, or gone on with.</summary>
    public void Want(MachineCommand command)
    {
        if (!IsStopping)
            (_wanted, _tries) = (command, 0);
    }

    /// <summary>No longer wants the machine held; nothing is set going.</summary>
    public void TakeBackHold() => _wanted = HoldIsWanted ? null : _wanted;

    /// <summary>Wants the machine stopped, and says how the run then ends. The first reason counts.</summary>
    public void Stop(RunEnd end)
    {
        if (IsStopping)
            return;
        (_wanted, _tries, EndWanted) = (MachineCommand.Stop, 0, end);
    }

    /// <summary>Tells the device what is wanted, if it is the moment for it.</summary>
    public void Tick(TimeSpan now)
    {
        if (_wanted is not { } command || !dialogue.CanAsk)
            return;
        var isFirstStop = IsStopping && _tries == 0; // it waits for nothing: whatever was asked before no longer matters
        if (!dialogue.IsAnswered && !isFirstStop)
            return;
        if (StateTable.Next(device.State, command) is null)
            ForgetIfDone(command);
        else
            Tell(command, now);
    }

    // To go on means something only to a machine that holds; to hold and to stop stay wanted.
    private void ForgetIfDone(MachineCommand command)
    {
        if (command == MachineCommand.Unhold && device.State != MachineState.Holding)
            _wanted = null;
    }

    private void Tell(MachineCommand command, TimeSpan now)
    {
        if (_tries == MostTries)
            return;
        if (_tries == 0)
            journal.Command(now, command);
        if (command == MachineCommand.Unhold && !journal.IsWritten)
            return;
        _tries++;
        dialogue.Ask(new Command(command), now);
        if (command == MachineCommand.Unhold)
            _wanted = null;
        if (_tries == MostTries)
            watcher.Told($"The device does not take the command {command}. If it moves when it should not, press the e-stop.");
    }
}

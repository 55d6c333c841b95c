using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Station;

/// <summary>
/// What the contacts ask of a run. An e-stop contact that opens, however shortly, asks for Abort, and an open hold contact for Hold. A start counts only if the
/// button was seen released, and then pressed, while the machine was ready for it and both other contacts were closed: so no button that is stuck,
/// taped down or held, no cable, no power that returns and no release starts anything.
/// </summary>
public sealed class OperatorRules
{
    /// <summary>
    /// How long a contact must stay as it is to be believed where that may start something; contacts bounce for some milliseconds (common practice).
    /// </summary>
    public static readonly TimeSpan Steady = TimeSpan.FromMilliseconds(30);

    private bool _wasOpen;
    private MachineState? _heldIn;
    private MachineCommand? _ready;
    private TimeSpan? _releasedSince;
    private TimeSpan? _pressedSince;

    /// <summary>What is asked for now; null for nothing. To be looked at some hundred times in a second.</summary>
    /// <param name="now">The time, never earlier than before.</param>
    /// <param name="contacts">What they say.</param>
    /// <param name="run">Where the run stands.</param>
    public MachineCommand? Look(TimeSpan now, ContactReading contacts, RunProgress run)
    {
        if (!contacts.EStopIsClosed)
            return Open();
        _wasOpen = false;
        if (!contacts.HoldIsClosed)
            return Hold(run.State);
        _heldIn = null;
        return Start(now, contacts.StartIsPressed, StartOf(run));
    }

    private MachineCommand? Open()
    {
        Forget(null);
        if (_wasOpen)
            return null;
        _wasOpen = true;
        return MachineCommand.Abort;
    }

    // Once in each state: a machine that is let go on from elsewhere is held again.
    private MachineCommand? Hold(MachineState state)
    {
        Forget(null);
        if (_heldIn == state || state is not (MachineState.Starting or MachineState.Execute or MachineState.Unholding
            or MachineState.Suspending or MachineState.Suspended or MachineState.Unsuspending))
            return null;
        _heldIn = state;
        return MachineCommand.Hold;
    }

    private MachineCommand? Start(TimeSpan now, bool isPressed, MachineCommand? ready)
    {
        if (ready != _ready)
            Forget(ready);
        if (ready is null)
            return null;
        if (!isPressed)
        {
            (_releasedSince, _pressedSince) = (_releasedSince ?? now, null);
            return null;
        }

        if (_releasedSince is not { } released)
            return null;
        _pressedSince ??= now;
        if (_pressedSince - released < Steady)
            Forget(ready); // it bounced
        else if (now - _pressedSince >= Steady)
        {
            Forget(ready);
            return ready;
        }

        return null;
    }

    private static MachineCommand? StartOf(RunProgress run) =>
        run.AwaitsStart ? MachineCommand.Start : run.State == MachineState.Held ? MachineCommand.Unhold : null;

    private void Forget(MachineCommand? ready) => (_ready, _releasedSince, _pressedSince) = (ready, null, null);
}

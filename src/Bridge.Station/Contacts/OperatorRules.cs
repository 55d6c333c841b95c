using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Station;

/// <summary>
/// What the contacts ask of a run. An e-stop contact that opens, however shortly, asks for Abort, and an open hold contact for Hold, again and again while
/// the machine moves or may be set going. A start counts only if the button was seen released, and then pressed, while the machine was ready for it and both
/// other contacts were closed: so no button that is stuck, taped down or held, no cable, no power that returns and no release starts anything.
/// </summary>
public sealed class OperatorRules
{
    /// <summary>
    /// How long a contact must stay as it is to be believed where that may start something; contacts bounce for some milliseconds (common practice).
    /// </summary>
    public static readonly TimeSpan Steady = TimeSpan.FromMilliseconds(30);

    /// <summary>
    /// After how long an open hold contact asks again. What it asked for may have been taken back elsewhere with no state in between that says so, and a state
    /// that passes may never be seen.
    /// </summary>
    public static readonly TimeSpan Again = TimeSpan.FromMilliseconds(100);

    private bool _wasOpen;
    private TimeSpan? _holdAsked;
    private MachineCommand? _ready;
    private TimeSpan? _releasedSince;
    private TimeSpan? _pressedSince;

    /// <summary>Whether what was last asked for is only asked again: the hold contact is open still, and the machine was not seen to hold since.</summary>
    public bool IsAgain { get; private set; }

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
            return Hold(now, run);
        _holdAsked = null;
        return Start(now, contacts.StartIsPressed, StartOf(run));
    }

    private MachineCommand? Open()
    {
        Forget(null);
        if (_wasOpen)
            return null;
        (_wasOpen, IsAgain) = (true, false);
        return MachineCommand.Abort;
    }

    // A machine that waits for its start is started by nothing while the contact is open; any other may move in a moment, whatever state it was last seen in.
    private MachineCommand? Hold(TimeSpan now, RunProgress run)
    {
        Forget(null);
        if (run.State == MachineState.Held)
            _holdAsked = null;
        if (run.AwaitsStart || now - _holdAsked < Again
            || run.State is MachineState.Holding or MachineState.Held or MachineState.Stopping or MachineState.Aborting)
            return null;
        (IsAgain, _holdAsked) = (_holdAsked is not null, now);
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
            IsAgain = false;
            return ready;
        }

        return null;
    }

    private static MachineCommand? StartOf(RunProgress run) =>
        run.AwaitsStart ? MachineCommand.Start : run.IsHeldBack || run.State == MachineState.Held ? MachineCommand.Unhold : null;

    private void Forget(MachineCommand? ready) => (_ready, _releasedSince, _pressedSince) = (ready, null, null);
}

using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>
/// Whose word it is that a held machine goes on: the operator's, that of a wait in a job that nobody attends, or of who takes up a run. One word is
/// for one Unhold; several before it are for one too.
/// </summary>
internal sealed class Leave(bool goesOnAtWaits)
{
    private readonly HashSet<(byte Session, byte Number)> _said = []; // what the link says again is said once
    private (ushort Run, uint Records) _at;
    private bool _waits;
    private bool _isGiven;

    /// <summary>Another host comes: nobody has said anything to it.</summary>
    public void NewAttempt()
    {
        _said.Clear();
        (_isGiven, _waits) = (false, false);
    }

    /// <summary>The word is given.</summary>
    public void Give() => _isGiven = true;

    /// <summary>The board tells of itself.</summary>
    public void Hear(in Status status)
    {
        var waits = goesOnAtWaits && status is { State: MachineState.Held, Cause: StateCause.OperatorWait };
        var at = (status.RunId, status.RecordsDone);
        if (waits && (!_waits || at != _at))
            Give();
        (_waits, _at) = (waits, at);
    }

    /// <summary>The host says Unhold.</summary>
    public void Unhold(byte session, byte number)
    {
        if (!_said.Add((session, number)))
            return;
        Fail.If(!_isGiven, $"the host lets the machine go on, and nobody said so");
        _isGiven = false;
    }
}

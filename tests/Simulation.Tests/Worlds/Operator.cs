using Bridge.Runs;
using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>The person at the machine: starts it, lets it go on, asks it to hold, stop or abort, and sees whether it does.</summary>
internal sealed class Operator(Board board, Leave leave)
{
    private const int LooksEvery = 150_000;

    // Where nothing else goes wrong, a machine that was asked to stand still has heard so by then, and one that was asked to stop is at rest.
    private const int HearsWithin = 200_000;
    private const int RestsWithin = 1_000_000;

    private RunController? _run;
    private bool _mustObey;
    private bool _isHeard;
    private MachineCommand? _asked;
    private long _askedAt;
    private long _looksAt;
    private int _worked;
    private long _steps;

    /// <summary>An attempt begins, in which the machine does what it is asked, or in which other things may go wrong too.</summary>
    /// <param name="mustObey">Whether nothing else goes wrong.</param>
    /// <param name="isHeard">Whether what is asked comes to the run: but for a planted defect it does.</param>
    public void Come(bool mustObey, bool isHeard) => (_mustObey, _isHeard, _run, _asked) = (mustObey, isHeard, null, null);

    /// <summary>The attempt is over.</summary>
    public void Leave() => (_run, _asked) = (null, null);

    /// <summary>A run is under way, perhaps as another one goes on: what was asked of that stays asked.</summary>
    public void Attend(RunController run) => _run = run;

    /// <summary>A turn of the host's loop: from time to time the operator looks, and lets the machine go on.</summary>
    public void Look(long now)
    {
        if (_run is null || now < _looksAt)
            return;
        _looksAt = now + LooksEvery;
        if (_run.Progress.State == MachineState.Held || (_asked == MachineCommand.Hold && now > _askedAt + RestsWithin))
            Ask(MachineCommand.Unhold, now);
        if (_run.Progress.AwaitsStart)
            Ask(MachineCommand.Start, now);
    }

    /// <summary>Asks the run that is under way, if there is one.</summary>
    public void Ask(MachineCommand command, long now)
    {
        if (_run is null)
            return;
        if (_isHeard || command is MachineCommand.Start or MachineCommand.Unhold)
            _run.Request(command);
        if (command == MachineCommand.Unhold)
            leave.Give();
        if (command == MachineCommand.Unhold && _asked == MachineCommand.Hold)
            _asked = null;
        else if (command is MachineCommand.Hold ? _asked is null : command is MachineCommand.Stop or MachineCommand.Abort)
            (_asked, _askedAt) = (command, now);
    }

    /// <summary>A moment has passed.</summary>
    public void See(long now)
    {
        if (!_mustObey || _asked is not { } command)
            return;
        if (now <= _askedAt + HearsWithin)
            _worked = board.Worked;
        Fail.If(board.Worked > _worked + 1, $"it was asked to {command} {(now - _askedAt) / 1000} ms ago, and works on"); // the cell that it was on its way to
        if (command == MachineCommand.Hold)
            return;
        if (now <= _askedAt + RestsWithin)
            _steps = board.Steps;
        Fail.If(board.Steps != _steps, $"it was asked to {command} {(now - _askedAt) / 1000} ms ago, and moves");
    }
}

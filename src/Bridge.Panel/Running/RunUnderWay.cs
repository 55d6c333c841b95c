using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Panel;

/// <summary>A run that goes on, or was the last: what pages see of it. Told by the run's own thread, looked at by others.</summary>
internal sealed class RunUnderWay(JobAtHand job, Machine machine, OpenDevice device, bool fast, Func<bool> isHoldWanted, LiveBoard board) : IRunWatcher
{
    private readonly Lock _door = new();
    private readonly PresentRecord _record = new(job.File.Image, machine.Grid);
    private readonly Countdown? _countdown = Countdown.Of(job.File.Image, machine);
    private RunProgress _progress;
    private EndView? _end;
    private bool _isMeasured;
    private string _name = "";

    public void StateChanged(RunProgress progress) => Progressed(progress);

    public void Progressed(RunProgress progress)
    {
        lock (_door)
            _progress = progress;
        board.Changed();
    }

    public void Told(string words) => board.Tell(words);

    /// <summary>Its folder is made.</summary>
    public void Named(string name)
    {
        lock (_door)
            _name = name;
        board.Changed();
    }

    /// <summary>The job is done, and the machine looks for its zero once more: it moves.</summary>
    public void Measured()
    {
        lock (_door)
            (_isMeasured, _progress) = (true, _progress with { State = MachineState.Resetting, Cause = StateCause.Operator });
        board.Changed();
    }

    /// <summary>It has ended.</summary>
    public void Ended(RunEnd end, RunProgress last = default, double? jobSeconds = null, string? seal = null)
    {
        lock (_door)
            (_end, _progress) = (new EndView($"{end.Outcome}", end.Words, end.WhatToDo, jobSeconds, seal), last);
        board.Changed();
    }

    /// <summary>What a page sees.</summary>
    public LiveView Look()
    {
        RunProgress now;
        EndView? end;
        string name;
        bool isMeasured;
        lock (_door)
            (now, end, name, isMeasured) = (_progress, _end, _name, _isMeasured);
        var isHeldBack = end is null && !isMeasured && isHoldWanted() && now.State is MachineState.Aborted or MachineState.Stopped or MachineState.Idle;
        var live = LiveBoard.Of(end is null ? "run" : "nothing", now.State, now.Cause, end is not null ? []
            : isMeasured ? [MachineCommand.Stop, MachineCommand.Abort]
            : isHeldBack ? [MachineCommand.Unhold, MachineCommand.Stop, MachineCommand.Abort]
            : Accepted(now.State));
        var whatToDo = isHeldBack ? "The run holds before it moves the machine: go on, or stop it." : live.WhatToDo;
        return live with { Run = Look(now, end, name), WhatToDo = whatToDo };
    }

    private RunView Look(RunProgress now, EndView? end, string name)
    {
        var (pass, next) = _record.After(now.Records);
        return new RunView
        {
            Name = name,
            Device = device.Name,
            IsMock = device.IsMock,
            Fast = fast,
            JobId = job.Id,
            Records = now.Records,
            RecordsInAll = job.Proof.Passes + (job.File.Image.HasEnd ? 1 : 0),
            Cells = now.Cells,
            CellsInAll = job.Proof.WorkedByA + job.Proof.WorkedByB,
            Layer = now.Layer,
            X = now.X,
            Y = now.Y,
            Head = HeadNames.Of(pass?.Entry.Head) ?? "a",
            Working = now.State == MachineState.Execute && pass?.Work.Cells > 0,
            ElapsedSeconds = Math.Round(now.Elapsed.TotalSeconds, 2),
            SecondsLeft = end is null ? _countdown?.SecondsLeft(now.Records, now.Cells) : null,
            PredictedSeconds = job.Times.Seconds,
            Record = pass is { } present ? RecordView.Of(job.File.Image, present.Index) : null,
            Prompt = now is { State: MachineState.Held, Cause: StateCause.OperatorWait } ? Prompt(pass?.Record.Verb == Verb.Wait ? next : pass) : null,
            End = end,
        };
    }

    private static string Prompt(Pass? pass) => pass is { } after
        ? $"The job waits for you: do what is to be done now, then go on. Next comes: head {HeadNames.Of(after.Entry.Head)}, layer {after.Entry.Layer}."
        : "The job waits for you: do what is to be done now, then go on.";

    // Abort and Stop are the run's own words before the machine has said anything: it is being connected to.
    private static IEnumerable<MachineCommand> Accepted(MachineState state) => state == MachineState.Undefined
        ? [MachineCommand.Stop, MachineCommand.Abort]
        : new[] { MachineCommand.Hold, MachineCommand.Unhold, MachineCommand.Stop, MachineCommand.Abort }
            .Where(command => StateTable.Next(state, command) is not null);
}

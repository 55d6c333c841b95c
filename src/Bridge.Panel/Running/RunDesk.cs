using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Panel;

/// <summary>What a page asks to be run.</summary>
/// <param name="On">mock, the dry run, or device.</param>
/// <param name="Fast">On the mock device: its time passes at once.</param>
/// <param name="Operator">Who operates a real machine.</param>
/// <param name="Answers">What was answered with yes.</param>
/// <param name="MeasureLost">After a complete run a real machine looks for its zero once more.</param>
public sealed record RunWish(string? On, bool Fast, string? Operator, IReadOnlyList<string>? Answers, bool MeasureLost);

/// <summary>Runs jobs, one at a time: a dry run on the mock device, or a run on the real one.</summary>
/// <param name="setting">What it runs on, and where the records go.</param>
/// <param name="before">What comes before motion.</param>
/// <param name="occupancy">Whose the machine is.</param>
/// <param name="board">Where pages look.</param>
public sealed class RunDesk(PanelSetting setting, BeforeMotion before, Occupancy occupancy, LiveBoard board)
{
    private const string Who = "A run";

    private readonly DeviceDoor _devices = new(setting, before, occupancy);
    private readonly Lock _door = new();
    private RunController? _run;
    private MachineHand? _measuring;
    private MachineCommand? _rest; // the most that was asked for and may not have been carried out
    private bool _isOver;
    private ushort _token = SessionToken.New();
    private Task _underWay = Task.CompletedTask;

    /// <summary>Begins a run; what keeps it from beginning is told as a problem, else null. It goes on by itself.</summary>
    /// <exception cref="RefusedException">The job is not proved, the checklist is not answered, or the run's folder cannot be made.</exception>
    public async Task<RunTrouble?> TryStartAsync(JobAtHand job, RunWish wish)
    {
        _ = ProvedJob.Of(job.File, setting.Machine);
        var (device, looked, trouble) = await _devices.TryOpenAsync(Who, wish.On, wish.Fast, new LookedOver(wish.Operator, wish.Answers), Forget)
            .ConfigureAwait(false);
        if (device is null)
            return trouble;
        var shown = new RunUnderWay(job, setting.Machine, device, device.IsMock && wish.Fast, IsHoldWanted, board);
        board.Show(shown.Look);
        _underWay = RunAsync(device, job, shown, looked, wish);
        return null;
    }

    private void Forget()
    {
        lock (_door)
            (_run, _measuring, _rest, _isOver) = (null, null, null, false);
    }

    /// <summary>Asks for Hold, Unhold, Stop or Abort; false where no run goes on.</summary>
    public bool TryCommand(MachineCommand command)
    {
        if (occupancy.By != Who)
            return false;
        lock (_door)
        {
            if (_isOver)
                return false;
            _rest = ToRest.Most(_rest, command);
            if (_measuring is not { } hand)
                _run?.Request(command);
            else
                hand.Rest(command);
        }

        board.Changed();
        return true;
    }

    /// <summary>Asks a run that goes on to stop, and waits for its end.</summary>
    public Task EndAsync()
    {
        TryCommand(MachineCommand.Stop);
        return _underWay;
    }

    private async Task RunAsync(OpenDevice device, JobAtHand job, RunUnderWay shown, ChecklistRecord? looked, RunWish wish)
    {
        await Task.Yield();
        try
        {
            using (device)
            {
                await TryRunAsync(device, job, shown, looked, wish).ConfigureAwait(false);
                while (OwesAbort())
                    await AbortAsync(device).ConfigureAwait(false);
            }
        }
        catch (Exception mistake) // no page may show a run that nobody steers any more
        {
            shown.Ended(new RunEnd(RunOutcome.LineLost,
                $"A mistake in this program ended the run ({mistake.GetType().Name}); a machine that hears nothing holds.",
                "Look at the machine; its e-stop stops it. The journal says what was done: keep the run folder, and go on with this run by bridge run --resume "
                + "and its folder."));
            throw;
        }
        finally
        {
            lock (_door)
                (_run, _measuring, _isOver) = (null, null, true);
            occupancy.Leave();
            board.Changed();
        }
    }

    private async Task TryRunAsync(OpenDevice device, JobAtHand job, RunUnderWay shown, ChecklistRecord? looked, RunWish wish)
    {
        try
        {
            await RunOnAsync(device, job, shown, looked, wish).ConfigureAwait(false);
        }
        catch (RefusedException refused)
        {
            shown.Ended(new RunEnd(RunOutcome.Refused, string.Join(" ", refused.Refusals), ""));
        }
    }

    private async Task RunOnAsync(OpenDevice device, JobAtHand job, RunUnderWay shown, ChecklistRecord? looked, RunWish wish)
    {
        var tried = looked is null ? null : await TriedAsync(device, looked).ConfigureAwait(false);
        if ((looked is not null && tried is null) || IsGivenUp())
        {
            shown.Ended(new RunEnd(RunOutcome.Stopped, "Nothing was started.", "See what was said, and begin again."));
            return;
        }

        var began = setting.Time.GetUtcNow();
        var telemetry = new RunTelemetry(setting.Machine.Name, device.Name, began, shown);
        using var session = RunSession.Create(
            new RunRequest(job.Name, job.Bytes, setting.MachinePath, setting.MachineBytes, setting.Runs, SettingsOf(device, wish),
                device.CountCellsNotAsTold),
            telemetry, device.Time, began);
        tried?.Save(session.Folder.Path);
        shown.Named(Path.GetFileName(session.Folder.Path));
        lock (_door)
        {
            _run = session.Controller;
            if (_rest is { } rest)
                _run.Request(rest); // asked for while there was no run to ask
        }

        var end = await session.RunAsync(device.Line, tried is not null && wish.MeasureLost ? worked => MeasureAsync(device, shown, worked) : null)
            .ConfigureAwait(false);
        if (end.Outcome == RunOutcome.Aborted)
            TakeRest();
        telemetry.Ended(session.Summary!, session.Took);
        if (session.Summary!.CellsNotAsTold is > 0 and var cells)
            board.Tell($"What the mock's gantry really worked differs from this record in {cells} cells: its motors skipped steps, or it went on unheard.");
        shown.Ended(end, session.Controller.Progress, session.Summary.JobSeconds, session.Seal);
    }

    private RunSettings SettingsOf(OpenDevice device, RunWish wish) => new()
    {
        RunId = RunNumber.New(),
        Token = NextToken(),
        Device = device.Name,
        GoesOnAtWaits = device.IsMock && wish.Fast, // in time that passes at once nobody can be waited for
        HeldPatience = device.IsMock && wish.Fast ? TimeSpan.FromSeconds(10) : null,
    };

    private async Task<ChecklistRecord?> TriedAsync(OpenDevice device, ChecklistRecord looked)
    {
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        if (await dialogue.OpenAsync(NextToken()).ConfigureAwait(false) is null
            || await dialogue.RestAsync(setting.Machine.TimeOuts.Answer).ConfigureAwait(false) is null)
        {
            board.Tell($"{dialogue.Trouble} Nothing was started.");
            return null;
        }

        return await before.TryEStopAsync(dialogue, looked, board.Tell, () => !IsGivenUp()).ConfigureAwait(false);
    }

    // The run's own controller has ended: what it was asked for last, and too late, keeps the machine from moving once more; what is asked for from here on
    // stops the hand that measures.
    private async Task<ReferencedAgain?> MeasureAsync(OpenDevice device, RunUnderWay shown, WorkedCells worked)
    {
        if (DescentCheck.FirstInTheWay(setting.Machine, worked) is { } inTheWay)
        {
            board.Tell($"Lost steps are not measured: the head would come down on what was built at {inTheWay.Cell} on layer {inTheWay.Layer}.");
            return null;
        }

        var dialogue = new DeviceDialogue(device.Line, device.Time);
        var hand = new MachineHand(dialogue, setting.Machine);
        if (KeptFromMeasuring(hand) is { } asked)
        {
            board.Tell($"Lost steps are not measured: the run was asked for {asked} as it ended.");
            return null;
        }

        shown.Measured();
        board.Tell("The machine looks for its zero once more, slowly, to see whether it has lost steps. Stop ends that.");
        var found = await ReferencedAgain.FindAsync(dialogue, hand, NextToken()).ConfigureAwait(false);
        board.Tell(found is null
            ? $"Lost steps could not be measured: {hand.Trouble ?? "it was stopped."}"
            : $"Lost steps: {LostStepsWords.Of(found.Lost)}.");
        return found;
    }

    private MachineCommand? KeptFromMeasuring(MachineHand hand)
    {
        lock (_door)
        {
            if (_rest is null)
                _measuring = hand;
            return _rest;
        }
    }

    // An Abort that came when neither the run nor the hand that measures could carry it out any more.
    private async Task AbortAsync(OpenDevice device)
    {
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        await dialogue.OpenAsync(NextToken()).ConfigureAwait(false);
        board.Tell(await dialogue.HaltAsync().ConfigureAwait(false)
            ? "Abort: the motors are off."
            : "The device does not say that its motors are off. If it moves, press the e-stop.");
    }

    // The last question of a run: after a no there is nothing more to ask it.
    private bool OwesAbort()
    {
        lock (_door)
        {
            var owes = _rest == MachineCommand.Abort;
            (_rest, _isOver) = (null, !owes);
            return owes;
        }
    }

    private void TakeRest()
    {
        lock (_door)
            _rest = null;
    }

    private bool IsGivenUp()
    {
        lock (_door)
            return _rest is MachineCommand.Stop or MachineCommand.Abort;
    }

    private bool IsHoldWanted()
    {
        lock (_door)
            return _rest == MachineCommand.Hold;
    }

    private ushort NextToken() => _token = SessionToken.After(_token);
}

/// <summary>Why a run did not begin.</summary>
/// <param name="IsOccupied">Whether that is a matter of time; else the device cannot be had.</param>
/// <param name="Words">Why.</param>
public sealed record RunTrouble(bool IsOccupied, string Words);

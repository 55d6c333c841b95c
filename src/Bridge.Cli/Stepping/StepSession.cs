using Bridge.Jobs;
using Bridge.Teaching;

namespace Bridge.Cli;

/// <summary>A job that a person steps through: what they type is done, by the interpreter and by the device where there is one.</summary>
/// <param name="report">Where it is told.</param>
/// <param name="stepper">The job.</param>
/// <param name="device">What does the steps too; null for the interpreter alone.</param>
/// <param name="deviceName">What it is called.</param>
/// <param name="readLine">The next line that is typed; null at the end.</param>
internal sealed class StepSession(Report report, Stepper stepper, ISteppedDevice? device, string deviceName, Func<Task<string?>> readLine)
{
    private readonly StepScreen _screen = new(report, stepper, device, deviceName);

    /// <summary>Whether something that was typed was refused, or a record could not be done.</summary>
    public bool WasRefused { get; private set; }

    /// <summary>Until the person leaves; false where the device could not go on.</summary>
    public async Task<bool> RunAsync()
    {
        StepRequest last = new StepRequest.Forward(StepUnit.Record, 1);
        _screen.Note("cell, record, layer, to, back, jump; help tells more, leave ends.");
        _screen.Show();
        while (device?.Trouble is null && await readLine().ConfigureAwait(false) is { } line)
        {
            try
            {
                var request = line.Trim().Length == 0 ? last : StepRequest.Parse(line.Trim(), stepper.Image, stepper.Grid);
                if (request is StepRequest.Leave)
                    return true;
                await DoAsync(request).ConfigureAwait(false);
                last = request;
            }
            catch (RefusedException refused)
            {
                WasRefused = true;
                report.Refused(refused);
            }
        }

        return device?.Trouble is null;
    }

    private async Task DoAsync(StepRequest request)
    {
        switch (request)
        {
            case StepRequest.Explain:
                foreach (var line in StepRequest.Help)
                    report.Line(line);
                return;
            case StepRequest.Forward forward:
                await ForwardAsync(forward).ConfigureAwait(false);
                break;
            case StepRequest.To to:
                await ToAsync(to).ConfigureAwait(false);
                break;
            case StepRequest.ToEnd:
                while (await FollowAsync(stepper.Record()).ConfigureAwait(false))
                {
                }

                break;
            case StepRequest.Back back:
                await BackAsync(back).ConfigureAwait(false);
                break;
            case StepRequest.Jump jump:
                await JumpAsync(jump.Record).ConfigureAwait(false);
                break;
        }

        WasRefused |= stepper.Stop.Fault is not null;
        _screen.Show();
    }

    private async Task ForwardAsync(StepRequest.Forward forward)
    {
        for (var time = 0; time < forward.Times; time++)
            if (!await OneAsync(forward.Unit).ConfigureAwait(false))
                return;
    }

    private async Task<bool> OneAsync(StepUnit unit)
    {
        if (unit == StepUnit.Cell)
            return await FollowAsync(stepper.Cell()).ConfigureAwait(false);
        if (!await FollowAsync(stepper.Record()).ConfigureAwait(false))
            return false;
        while (unit == StepUnit.Layer && !stepper.NextRises)
            if (!await FollowAsync(stepper.Record()).ConfigureAwait(false))
                return false;
        return true;
    }

    // Found by the interpreter first: what never comes would have all of the job worked. Then the device does the records up to there, whole where they may be.
    private async Task ToAsync(StepRequest.To to)
    {
        var from = stepper.Ticks;
        var comes = stepper.RunTo(to.Holds);
        var goal = stepper.Ticks;
        if (comes && device is null)
            return;
        stepper.BackToTicks(from);
        if (!comes)
        {
            _screen.Note($"{to.Words}: that never comes from here. Nothing was moved; to end goes on to the job's end.");
            return;
        }

        while (stepper.RecordUpTo(goal) is { } done)
            if (!await FollowAsync(done).ConfigureAwait(false))
                return;
    }

    private async Task<bool> FollowAsync(StepDone? done)
    {
        if (done is null)
            _screen.Note(stepper.Stop.IsComplete ? "The job is at its end." : "The next record cannot be done.");
        return done is { } step && (device is null || await device.FollowAsync(step, stepper.Ticks).ConfigureAwait(false));
    }

    private async Task BackAsync(StepRequest.Back back)
    {
        var from = stepper.Ticks;
        GoBack(back);
        var (to, ticks) = (stepper.Stop.Position, stepper.Ticks);
        if (device is null || ticks == from)
            return;
        try
        {
            var moves = device.PlanBack(to);
            if (moves.Count == 0 || await IsWantedAsync(moves, "go back").ConfigureAwait(false))
            {
                await device.BackAsync(to, ticks).ConfigureAwait(false);
                return;
            }
        }
        catch (RefusedException)
        {
            GoOnTo(from);
            throw;
        }

        GoOnTo(from);
    }

    private void GoBack(StepRequest.Back back)
    {
        if (back.Unit == StepUnit.Cell)
            stepper.BackToTicks(Math.Max(0, stepper.Ticks - back.Times));
        else if (back.Unit == StepUnit.Record)
            stepper.BackRecords(back.Times);
        else
            for (var time = 0; time < back.Times && stepper.Ticks > 0; time++)
                stepper.BackLayer();
    }

    private void GoOnTo(long ticks)
    {
        while (stepper.RecordUpTo(ticks) is not null)
        {
        }
    }

    private async Task JumpAsync(int record)
    {
        if (!await IsWantedAsync(JumpConsequences.Of(stepper, record).Lines(), "jump").ConfigureAwait(false))
            return;
        if (!stepper.TryJump(record))
            throw new RefusedException($"jump {record}", $"{Stepper.MostJumps} jumps", $"up to {Stepper.MostJumps}", "Begin the stepping anew.");
    }

    private async Task<bool> IsWantedAsync(IEnumerable<string> lines, string what)
    {
        foreach (var line in lines)
            report.Line(line);
        report.Line($"Type yes to {what}; anything else leaves all as it is.");
        var isWanted = (await readLine().ConfigureAwait(false))?.Trim().ToLowerInvariant() is "y" or "yes";
        if (!isWanted)
            _screen.Note("Left as it is.");
        return isWanted;
    }
}

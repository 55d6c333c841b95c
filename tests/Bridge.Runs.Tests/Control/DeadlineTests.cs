using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>Runs that are looked at only when octets arrive or a deadline that they name has come: whatever is due without one is never done.</summary>
public class DeadlineTests
{
    [Fact]
    public async Task A_job_is_run_to_its_end()
    {
        using var rig = Rig.OfSmallJob();
        Assert.Equal(RunOutcome.Complete, (await ToEnd(rig.Run, rig.Line, rig.Time)).Outcome);
        rig.HasWorkedAll();
    }

    [Fact]
    public async Task On_a_bad_line_too()
    {
        var noise = new LineNoise(Drop: 0.05, Flip: 0.05, Duplicate: 0.05);
        using var rig = Rig.OfSmallJob(faults: new() { ToDevice = noise, ToHost = noise }, seed: 2);
        Assert.Equal(RunOutcome.Complete, (await ToEnd(rig.Run, rig.Line, rig.Time)).Outcome);
        rig.HasWorkedAll();
    }

    [Fact]
    public async Task The_journal_is_tried_again_and_the_patience_ends()
    {
        using var rig = Rig.OfSmallJob(Rig.Settings with { HeldPatience = TimeSpan.FromSeconds(10) });
        rig.Journal.Fails = (_, _) => rig.Device.Gantry.CellsWorked > 3;
        Assert.Equal(RunOutcome.JournalFailed, (await ToEnd(rig.Run, rig.Line, rig.Time)).Outcome);
        Assert.InRange(rig.Journal.Failures, 10, 13);
    }

    [Fact]
    public async Task A_stop_that_is_never_answered_becomes_an_abort_that_is_never_answered()
    {
        var rig = new ScriptedRig(script: device => (device.Executes, device.HeedsStop) = (false, false));
        rig.Device.Refuses = (type, before) => type == MessageType.Command && before > 2 ? Answer.WrongState : null;
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute)
                rig.Run.Request(MachineCommand.Stop);
        };
        var end = await ToEnd(rig.Run, rig.Line, rig.Time);
        Assert.Equal(RunOutcome.LineLost, end.Outcome);
        var asked = rig.Watcher.TimeOf(MachineState.Execute);
        Assert.Equal(asked + ScriptedRig.StopPatience, rig.Device.Stops[0]);
        Assert.Equal(asked + ScriptedRig.StopPatience + ScriptedRig.Answer, rig.Time.Now);
    }

    private static async Task<RunEnd> ToEnd(RunController run, WatchedLine line, VirtualTime time)
    {
        var buffer = new byte[4096];
        while (true)
        {
            int count;
            while ((count = line.Read(buffer)) > 0)
                run.Receive(buffer.AsSpan(0, count), time.Now);
            run.Tick(time.Now);
            run.WriteTo(line);
            if (run.End is { } end)
                return end;
            var wait = run.NextDeadline - time.Now;
            await line.WaitAsync(wait > TimeSpan.Zero ? wait : TimeSpan.Zero, CancellationToken.None);
        }
    }
}

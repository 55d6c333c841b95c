using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>What a person is told while a run goes on.</summary>
public class ToldTests
{
    [Fact]
    public void A_machine_that_holds_by_itself_is_told_with_its_cause_and_what_to_see_to()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        HoldsFor(rig, StateCause.LineSilent);
        Assert.Equal(
            "The machine holds: it heard nothing from this program. No work is in doubt. Check the cable and this computer's load. Then go on or stop.",
            Assert.Single(rig.Watcher.Words));
    }

    [Fact]
    public void A_wait_of_the_job_is_told_as_one()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        HoldsFor(rig, StateCause.OperatorWait);
        Assert.Equal(["The job waits for you: do what it waits for, then go on."], rig.Watcher.Words);
    }

    [Fact]
    public void A_hold_that_was_asked_for_is_not_told()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        HoldsFor(rig, StateCause.Operator);
        Assert.Empty(rig.Watcher.Words);
    }

    [Fact]
    public void A_journal_without_room_is_told_when_it_fails_when_it_is_in_the_way_and_when_it_is_whole_again()
    {
        using var rig = Rig.OfSmallJob();
        var (full, room) = (false, TimeSpan.FromMinutes(1));
        rig.AtCell(cell => full |= cell >= 3);
        rig.Journal.Fails = (_, _) => full && rig.Time.Now < room;
        rig.Once(() => rig.Time.Now > TimeSpan.FromSeconds(50), () => rig.Run.Request(MachineCommand.Unhold));
        rig.Once(() => rig.Time.Now > room + TimeSpan.FromSeconds(5), () => rig.Run.Request(MachineCommand.Unhold));
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal(
            [
                "The journal cannot be written (no room): the machine is told to hold. Make room on the disk and go on, or stop the run.",
                "Not yet: the journal still cannot be written (no room).",
                "The journal can be written again. The machine stays held until it is told to go on.",
            ], rig.Watcher.Words);
        rig.HasWorkedAll();
    }

    [Fact]
    public void A_command_that_a_device_keeps_refusing_sends_the_person_to_the_e_stop()
    {
        var rig = ScriptedRig.WithoutHold();
        rig.Line.EachTurn = _ =>
        {
            if (rig.Time.Now > TimeSpan.FromMinutes(1))
                rig.Run.Request(MachineCommand.Abort);
        };
        rig.ToEnd();
        Assert.Equal(["The device does not take the command Hold. If it moves when it should not, press the e-stop."], rig.Watcher.Words);
        Assert.Single(rig.Journal.Entries, entry => entry.Command == "Hold"); // told to the journal once, though it was tried eight times
    }

    [Fact]
    public void A_run_is_asked_for_five_commands_and_no_other() => Assert.Contains("start, hold, go on, stop or abort",
        Assert.Throws<ArgumentOutOfRangeException>(() => new ScriptedRig().Run.Request(MachineCommand.Clear)).Message);

    private static void HoldsFor(ScriptedRig rig, StateCause cause)
    {
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute)
                rig.Device.Enter(MachineState.Held, cause);
            else if (state == MachineState.Held)
                rig.Run.Request(MachineCommand.Stop);
        };
        Assert.Equal(RunOutcome.Stopped, rig.ToEnd().Outcome);
    }
}

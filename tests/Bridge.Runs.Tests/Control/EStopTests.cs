using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class EStopTests
{
    [Fact]
    public void Pressed_at_any_cell_it_ends_the_run_and_released_it_starts_nothing()
    {
        for (var cell = 1; cell <= 40; cell += 2)
        {
            using var rig = Rig.OfSmallJob(faults: new MockFaults { EStopAt = cell, EStopReleasedAfter = TimeSpan.FromSeconds(1) });
            var end = rig.ToEnd();
            Assert.Equal((RunOutcome.Aborted, MachineState.Aborted, StateCause.EStop), (end.Outcome, rig.Device.State, rig.Device.Cause));
            Assert.Contains("e-stop", end.Words);
            rig.HasWorkedAPart();
            Assert.Equal(cell, rig.Device.Gantry.CellsWorked);
            rig.StaysSo();
            Assert.False(rig.Device.Gantry.EStopIsOpen);
        }
    }

    [Fact]
    public void Pressed_before_the_start_Clear_is_refused_and_the_end_says_release_it()
    {
        using var rig = Rig.OfSmallJob();
        rig.Port.ByHand(device => device.Gantry.PressEStop());
        var end = rig.ToEnd();
        Assert.Equal(RunOutcome.Refused, end.Outcome);
        Assert.Contains("Release the e-stop", end.WhatToDo);
        Assert.Equal(MachineState.Aborted, rig.Device.State);
    }

    [Theory]
    [InlineData(MachineState.Stopped)]
    [InlineData(MachineState.Resetting)]
    [InlineData(MachineState.Idle)]
    [InlineData(MachineState.Starting)]
    public void Pressed_and_released_at_once_in_any_state_before_the_work_it_still_ends_the_run(MachineState state)
    {
        using var rig = Rig.OfSmallJob();
        var pressed = false;
        rig.EachTurn(_ =>
        {
            if (pressed || rig.Run.Progress.State != state)
                return;
            pressed = true;
            rig.Port.ByHand(device => device.Gantry.PressEStop());
            rig.Port.ByHand(device => device.Gantry.ReleaseEStop());
        });
        Assert.Equal((RunOutcome.Aborted, MachineState.Aborted), (rig.ToEnd().Outcome, rig.Device.State));
        Assert.True(pressed);
        rig.StaysSo();
    }

    [Theory]
    [InlineData(null)]
    [InlineData(1)] // before a layer
    public void Pressed_while_a_stopped_machine_is_told_about_itself_it_is_not_cleared_by_the_run(int? layer)
    {
        var rig = new ScriptedRig(Rig.Settings with { LayerBegun = layer }, device => device.State = MachineState.Stopped);
        rig.Device.Heard = type =>
        {
            if (type == MessageType.SetMachine)
                rig.Device.Enter(MachineState.Aborted, StateCause.EStop);
        };
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        Assert.Empty(rig.Device.Commands);
    }

    [Fact]
    public void Pressed_while_the_machine_is_held_it_ends_the_run()
    {
        using var rig = Rig.OfSmallJob();
        rig.AtCell(cell =>
        {
            if (cell == 4)
                rig.Run.Request(MachineCommand.Hold);
        });
        rig.Once(() => rig.Run.Progress.State == MachineState.Held, () => rig.Port.ByHand(device => device.Gantry.PressEStop()));
        Assert.Equal((RunOutcome.Aborted, StateCause.EStop), (rig.ToEnd().Outcome, rig.Device.Cause));
        rig.HasWorkedAPart();
    }
}

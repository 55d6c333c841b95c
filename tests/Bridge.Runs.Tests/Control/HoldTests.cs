using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class HoldTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Held_and_let_go_at_every_cell_nothing_is_lost_or_repeated(int times)
    {
        using var rig = Rig.OfSmallJob();
        rig.AtCell(_ => Ask(rig.Run, MachineCommand.Hold, times));
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Held)
                Ask(rig.Run, MachineCommand.Unhold, times);
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        rig.HasWorkedAll();
        Assert.True(rig.Watcher.States.Count(seen => seen.State == MachineState.Held) > rig.Cells.Count / 2);
    }

    [Fact]
    public void Held_at_every_cell_on_a_bad_line_nothing_is_lost_or_repeated()
    {
        var noise = new Mock.LineNoise(Drop: 0.05, Flip: 0.05, Duplicate: 0.05);
        using var rig = Rig.OfSmallJob(faults: new() { ToDevice = noise, ToHost = noise }, seed: 3);
        rig.AtCell(_ => rig.Run.Request(MachineCommand.Hold));
        rig.EachTurn(turn =>
        {
            if (turn % 40 == 0)
                rig.Run.Request(MachineCommand.Unhold);
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        rig.HasWorkedAll();
    }

    [Fact]
    public void Hold_and_Unhold_in_one_breath_leave_the_machine_going()
    {
        using var rig = Rig.OfSmallJob();
        rig.AtCell(_ =>
        {
            rig.Run.Request(MachineCommand.Hold);
            rig.Run.Request(MachineCommand.Unhold);
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        rig.HasWorkedAll();
    }

    [Fact]
    public void Unhold_asked_while_the_answer_to_Hold_is_late_is_not_lost()
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        TimeSpan? heldAt = null;
        rig.Device.Says = status => rig.Device.State == MachineState.Held
            && (heldAt is null || rig.Time.Now < heldAt + TimeSpan.FromSeconds(0.3)) ? null : status;
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute && heldAt is null)
                rig.Run.Request(MachineCommand.Hold);
        };
        rig.Line.EachTurn = _ =>
        {
            if (rig.Device.State != MachineState.Held || heldAt is not null)
                return;
            heldAt = rig.Time.Now;
            rig.Run.Request(MachineCommand.Unhold);
        };
        rig.Device.Heard = type =>
        {
            if (type == MessageType.Command && rig.Device.Commands[^1] == MachineCommand.Unhold)
                (rig.Device.State, rig.Device.Done) = (MachineState.Complete, rig.Device.Count);
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal([MachineCommand.Hold, MachineCommand.Unhold], rig.Device.Commands[^2..]);
    }

    [Fact]
    public void Unhold_asked_while_the_machine_comes_to_rest_lets_it_go_on_from_there()
    {
        using var rig = Rig.OfSmallJob();
        rig.AtCell(cell =>
        {
            if (cell == 5)
                rig.Run.Request(MachineCommand.Hold);
        });
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Holding)
                rig.Run.Request(MachineCommand.Unhold);
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.InRange(rig.Time.Now, TimeSpan.Zero, TimeSpan.FromMinutes(5)); // nobody had to ask again
        rig.HasWorkedAll();
    }

    [Fact]
    public void A_job_is_under_way_from_its_first_start_on_however_often_it_is_held()
    {
        using var rig = Rig.OfSmallJob();
        rig.AtCell(cell =>
        {
            if (cell % 5 == 0)
                rig.Run.Request(MachineCommand.Hold);
        });
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Held)
                rig.Run.Request(MachineCommand.Unhold);
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal(rig.Watcher.States.First(seen => seen.State is MachineState.Starting or MachineState.Execute).Elapsed, rig.Run.StartedAt);
    }

    [Fact]
    public void Hold_asked_before_the_start_at_any_turn_keeps_the_machine_from_starting_until_it_is_let_go()
    {
        for (var turn = 0; turn < 60; turn += 3)
        {
            using var rig = Rig.OfSmallJob();
            var asked = turn;
            rig.EachTurn(now =>
            {
                if (now == asked)
                    rig.Run.Request(MachineCommand.Hold);
            });
            var letGo = TimeSpan.FromMinutes(1);
            rig.Once(() => rig.Time.Now >= letGo, () => rig.Run.Request(MachineCommand.Unhold));
            Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
            Assert.True(rig.Watcher.TimeOf(MachineState.Execute) >= letGo);
            rig.HasWorkedAll();
        }
    }

    [Theory]
    [InlineData(MachineState.Clearing)]
    [InlineData(MachineState.Resetting)]
    [InlineData(MachineState.Idle)]
    [InlineData(MachineState.Starting)]
    [InlineData(MachineState.Execute)]
    public void Hold_asked_in_any_state_holds_until_it_is_let_go(MachineState state)
    {
        using var rig = Rig.OfSmallJob();
        var asked = false;
        rig.Watcher.OnState = entered =>
        {
            if (asked || entered != state)
                return;
            asked = true;
            rig.Run.Request(MachineCommand.Hold);
        };
        rig.Once(() => rig.Time.Now >= TimeSpan.FromMinutes(1), () =>
        {
            Assert.InRange(rig.Device.Gantry.CellsWorked, 0, 1);
            rig.Run.Request(MachineCommand.Unhold);
        });
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.True(asked);
        rig.HasWorkedAll();
    }

    [Theory]
    [InlineData(StateCause.LineSilent)]
    [InlineData(StateCause.HostRestarted)]
    [InlineData(StateCause.Starved)]
    [InlineData(StateCause.OperatorWait)]
    [InlineData(StateCause.Operator)]
    public void A_machine_that_holds_when_its_line_is_back_stays_held_until_the_operator_lets_it_go_on(StateCause cause)
    {
        var rig = new ScriptedRig(script: device => device.Executes = false);
        var (line, asks) = (TimeSpan.MaxValue, TimeSpan.MaxValue);
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute && line == TimeSpan.MaxValue)
                (rig.Device.IsDead, line) = (true, rig.Time.Now + TimeSpan.FromSeconds(1));
        };
        rig.Line.EachTurn = _ =>
        {
            if (rig.Time.Now >= line && rig.Device.IsDead)
            {
                (rig.Device.IsDead, asks) = (false, rig.Time.Now + TimeSpan.FromMinutes(1));
                rig.Device.Enter(MachineState.Held, cause);
            }

            if (rig.Time.Now < asks)
                return;
            Assert.DoesNotContain(MachineCommand.Unhold, rig.Device.Commands);
            asks = TimeSpan.MaxValue;
            rig.Run.Request(MachineCommand.Unhold);
        };
        rig.Device.Heard = type =>
        {
            if (type == MessageType.Command && rig.Device.Commands[^1] == MachineCommand.Unhold)
                (rig.Device.State, rig.Device.Done) = (MachineState.Complete, rig.Device.Count);
        };
        Assert.Equal(RunOutcome.Complete, rig.ToEnd().Outcome);
        Assert.Equal(MachineCommand.Unhold, Assert.Single(rig.Device.Commands, command => command == MachineCommand.Unhold));
        Assert.True(rig.Time.Now >= line + TimeSpan.FromMinutes(1));
    }

    [Fact]
    public void A_held_machine_that_waits_for_records_holds_too()
    {
        var rig = new ScriptedRig(script: device =>
        {
            device.Executes = false;
            device.Heard = type =>
            {
                if (type == MessageType.Command && device.State == MachineState.Execute)
                    device.Enter(MachineState.Suspended, StateCause.Starved);
            };
        });
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Suspended)
                rig.Run.Request(MachineCommand.Hold);
            if (state == MachineState.Held)
                rig.Run.Request(MachineCommand.Stop);
        };
        Assert.Equal(RunOutcome.Stopped, rig.ToEnd().Outcome);
        Assert.Equal([MachineCommand.Hold, MachineCommand.Stop], rig.Device.Commands[^2..]);
    }

    [Fact]
    public void A_device_that_refuses_to_hold_is_not_asked_for_ever_and_the_operator_is_told()
    {
        var rig = ScriptedRig.WithoutHold();
        var asked = false;
        rig.Line.EachTurn = _ =>
        {
            if (!asked && rig.Time.Now > TimeSpan.FromMinutes(1))
                rig.Run.Request(MachineCommand.Abort);
            asked = rig.Time.Now > TimeSpan.FromMinutes(1);
        };
        Assert.Equal(RunOutcome.Aborted, rig.ToEnd().Outcome);
        Assert.Contains(rig.Watcher.Words, words => words.Contains("does not take the command Hold", StringComparison.Ordinal));
    }

    private static void Ask(RunController run, MachineCommand command, int times)
    {
        for (var time = 0; time < times; time++)
            run.Request(command);
    }
}

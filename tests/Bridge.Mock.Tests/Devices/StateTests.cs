using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class StateTests
{
    private static readonly RecordWidth N = RecordWidth.Four;

    public static TheoryData<MachineState, MachineCommand> All()
    {
        var all = new TheoryData<MachineState, MachineCommand>();
        MachineState[] states =
        [
            MachineState.Aborted, MachineState.Stopped, MachineState.Resetting, MachineState.Idle, MachineState.Execute, MachineState.Suspending,
            MachineState.Suspended, MachineState.Holding, MachineState.Held, MachineState.Stopping, MachineState.Completing, MachineState.Complete,
        ];
        foreach (var state in states)
            foreach (var command in Enum.GetValues<MachineCommand>().Where(StateTable.IsDefined))
                all.Add(state, command);
        return all;
    }

    /// <summary>A plotter in a state: the twelve that last long enough to be told something.</summary>
    internal static Bench In(MachineState state)
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.SetUp();
        switch (state)
        {
            case MachineState.Aborted:
                bench.Tell(MachineCommand.Abort);
                break;
            case MachineState.Stopped:
                break;
            case MachineState.Resetting:
                bench.Tell(MachineCommand.Reset);
                break;
            case MachineState.Idle:
                bench.Tell(MachineCommand.Reset);
                bench.Reach(MachineState.Idle);
                bench.Tell(new Begin(9, 2));
                break;
            default:
                Run(bench, state);
                break;
        }

        Assert.Equal(state, bench.Device.State);
        return bench;
    }

    private static void Run(Bench bench, MachineState state)
    {
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Idle);
        var row = Record.Row(N, Head.A, new Cell(0, 0), 0, 16);
        if (state is MachineState.Suspending or MachineState.Suspended)
        {
            bench.Tell(new Begin(9, 2));
            bench.TellRecords(0, row);
            bench.Tell(MachineCommand.Start);
            bench.Reach(state);
            return;
        }

        bench.Start(row, Record.End);
        bench.ReachCells(3);
        if (state is MachineState.Holding or MachineState.Held)
            bench.Tell(MachineCommand.Hold);
        if (state is MachineState.Stopping)
            bench.Tell(MachineCommand.Stop);
        bench.Reach(state);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Every_command_in_every_state_does_what_the_table_says(MachineState state, MachineCommand command)
    {
        var bench = In(state);
        bench.Said.Clear();
        var answer = bench.Tell(command);
        if (StateTable.Next(state, command) is { } next)
        {
            Assert.Equal(Answer.Accepted, answer);
            Assert.Equal(next, bench.Said[0].State);
            Assert.Equal(StateCause.Operator, bench.Said[0].Cause);
            var after = StateTable.Completed(next)!.Value;
            Assert.True(bench.Until(() => bench.Said.Any(status => status.State == after)), $"{after} does not follow {next}");
        }
        else
        {
            Assert.Equal(Answer.WrongState, answer);
            Assert.All(bench.Said, status => Assert.Equal(state, status.State));
        }
    }

    [Fact]
    public void After_power_on_it_is_aborted_with_its_drivers_off_and_nothing_moves()
    {
        var bench = new Bench(TestMachines.Plotter);
        var place = bench.Device.Gantry.X.PlaceMm;
        bench.Hello();
        Assert.Equal((MachineState.Aborted, ResetReason.PowerOn), (bench.Welcome!.Value.State, bench.Welcome.Value.ResetReason));
        bench.Beat();
        Assert.Equal((MachineState.Aborted, StateCause.PowerOn), (bench.Last.State, bench.Last.Cause));
        foreach (var command in Enum.GetValues<MachineCommand>().Where(command => command is not (MachineCommand.Undefined or MachineCommand.Clear)))
            Assert.Equal(Answer.WrongState, bench.Tell(command));
        bench.Pass(5);
        Assert.Equal(place, bench.Device.Gantry.X.PlaceMm);
        Assert.False(bench.Device.Gantry.DriversAreOn);
    }

    [Fact]
    public void Reset_without_a_setup_is_refused()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Hello();
        bench.Tell(MachineCommand.Clear);
        Assert.Equal(Answer.NoSetup, bench.Tell(MachineCommand.Reset));
        bench.Tell(TestMachines.SetMachineOf(bench.Machine));
        Assert.Equal(Answer.NoSetup, bench.Tell(MachineCommand.Reset));
    }

    [Fact]
    public void Start_needs_a_run_that_has_begun_and_not_ended()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        Assert.Equal(Answer.NoRun, bench.Tell(MachineCommand.Start));
        bench.Start(Record.End);
        bench.Reach(MachineState.Complete);
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Idle);
        Assert.Equal(Answer.NoRun, bench.Tell(MachineCommand.Start));
    }

    [Fact]
    public void A_new_setup_in_idle_loses_the_reference_and_start_is_refused_until_it_is_found_again()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        bench.Tell(new Begin(1, 1));
        bench.Tell(TestMachines.SetMachineOf(bench.Machine));
        Assert.Equal(BoardInputs.None, bench.Last.Inputs & (BoardInputs.ReferencedX | BoardInputs.ReferencedY));
        Assert.Equal(Answer.NotReferenced, bench.Tell(MachineCommand.Start));
        Assert.Equal(Answer.NotReferenced, bench.Tell(new Begin(1, 1)));
        bench.Tell(MachineCommand.Stop);
        bench.Tell(MachineCommand.Reset);
        bench.Reach(MachineState.Idle);
        bench.Start(Record.End);
        bench.Reach(MachineState.Complete);
    }

    [Fact]
    public void A_setup_is_refused_while_a_run_is_on()
    {
        var bench = In(MachineState.Execute);
        Assert.Equal(Answer.WrongState, bench.Tell(TestMachines.SetMachineOf(bench.Machine)));
        Assert.Equal(Answer.WrongState, bench.Tell(TestMachines.SetAxesOf(bench.Machine).First()));
        Assert.Equal(Answer.WrongState, bench.Tell(TestMachines.SetHeadsOf(bench.Machine).First()));
        Assert.Equal(Answer.WrongState, bench.Tell(new Begin(1, 1)));
        bench.Reach(MachineState.Complete);
    }

    [Fact]
    public void A_run_that_the_host_completes_early_is_not_said_to_be_a_complete_job()
    {
        var bench = In(MachineState.Execute);
        bench.Tell(MachineCommand.Complete);
        bench.Reach(MachineState.Complete);
        Assert.Equal(StateCause.Operator, bench.Last.Cause);
        Assert.True(bench.Last.RecordsDone < 2);
    }
}

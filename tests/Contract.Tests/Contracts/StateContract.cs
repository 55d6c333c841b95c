using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>The seventeen states and the ten commands.</summary>
public abstract class StateContract(DeviceMaker make)
{
    public static TheoryData<MachineState> Lasting => [.. Situation.Lasting];

    public static TheoryData<MachineState, MachineCommand> Allowed()
    {
        var allowed = new TheoryData<MachineState, MachineCommand>();
        foreach (var state in Situation.Lasting)
            foreach (var command in Commands().Where(command => StateTable.Next(state, command) is not null))
                allowed.Add(state, command);
        return allowed;
    }

    [ContractTheory]
    [MemberData(nameof(Allowed))]
    public void A_command_that_the_table_allows_leads_where_it_says(MachineState state, MachineCommand command)
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        Assert.Equal(Answer.Accepted, host.Tell(command));
        var next = StateTable.Next(state, command)!.Value;
        Assert.Contains(host.Said, status => status.State == next && status.Cause == StateCause.Operator);
        host.Reach(StateTable.Completed(next)!.Value);
        Assert.Equal(0, device.Wrongs);
    }

    [ContractTheory]
    [MemberData(nameof(Lasting))]
    public void Every_other_command_is_refused_and_the_state_stays(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        foreach (var command in Commands().Where(command => StateTable.Next(state, command) is null))
            Assert.Equal(Answer.WrongState, host.Tell(command));
        Assert.All(host.Said, status => Assert.Equal(state, status.State));
    }

    public static TheoryData<MachineState> Acting => [.. Enum.GetValues<MachineState>().Where(StateTable.IsActing)];

    /// <summary>
    /// However short an acting state is: what comes right behind the command that leads into it finds that state, or the one that follows it by itself.
    /// </summary>
    [ContractTheory]
    [MemberData(nameof(Acting))]
    public void A_command_on_the_heels_of_one_that_leads_into_an_acting_state_is_judged_by_the_table(MachineState acting)
    {
        var (before, into) = Situation.Into(acting);
        foreach (var command in Commands())
        {
            using var device = make(ContractMachines.Plotter, (int)command);
            var host = new Host(device, ContractMachines.Plotter);
            host.Bring(before);
            var answer = host.TellBoth(into, command);
            MachineState[] found = [acting, StateTable.Completed(acting)!.Value];
            var nexts = found.Select(state => StateTable.Next(state, command)).ToArray();
            Assert.True(answer == Answer.Accepted ? nexts.Any(next => next is not null) : nexts.Contains(null), $"{command} in {acting}: {answer}");
            Assert.Contains(answer, new[] { Answer.Accepted, Answer.WrongState });
            MachineState[] ends = answer == Answer.Accepted ? [.. nexts.OfType<MachineState>().Select(next => StateTable.Completed(next)!.Value)] : [found[1]];
            Assert.True(host.Until(() => host.Said.Any(status => ends.Contains(status.State)), 5), $"{command} in {acting}, {answer}: {host.State}");
            Assert.Equal(0, device.Wrongs);
        }
    }

    [ContractFact]
    public void A_whole_run_goes_through_the_states_in_order_and_tells_each()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Aborted);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Clear));
        host.Reach(MachineState.Stopped);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Reach(MachineState.Idle);
        host.Tell(new Begin(3, 3));
        host.TellRecords(0, Situation.Job);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Start));
        host.ReachCells(5);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Hold));
        host.Reach(MachineState.Held);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
        Assert.Equal(
            [
                MachineState.Clearing, MachineState.Stopped, MachineState.Resetting, MachineState.Idle, MachineState.Starting, MachineState.Execute,
                MachineState.Holding, MachineState.Held, MachineState.Unholding, MachineState.Execute, MachineState.Completing, MachineState.Complete,
            ],
            host.StatesSaid);
    }

    [ContractFact]
    public void Suspend_and_unsuspend_by_the_host_lose_nothing()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Suspend));
        host.Reach(MachineState.Suspended);
        var cells = host.Worked.Count;
        host.Pass(1);
        Assert.Equal((MachineState.Suspended, StateCause.Operator, cells), (host.State, host.Last.Cause, host.Worked.Count));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unsuspend));
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(ContractMachines.Plotter, Situation.Job), host.Worked);
    }

    [ContractFact]
    public void After_power_on_it_is_aborted_and_nothing_moves()
    {
        using var device = make(ContractMachines.Plotter, 5);
        var host = new Host(device, ContractMachines.Plotter);
        var place = device.PlaceOf(AxisName.X);
        var welcome = host.Hello();
        Assert.Equal((MachineState.Aborted, ResetReason.PowerOn), (welcome.State, welcome.ResetReason));
        Assert.Equal((MachineState.Aborted, StateCause.PowerOn), (host.Ask().State, host.Last.Cause));
        host.Pass(2);
        Assert.Equal((place, false), (device.PlaceOf(AxisName.X), device.DriversAreOn));
    }

    [ContractFact]
    public void Reset_needs_a_whole_setup_and_start_a_reference_and_a_run()
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = new Host(device, ContractMachines.Plotter);
        host.Hello();
        host.Tell(MachineCommand.Clear);
        Assert.Equal(Answer.NoSetup, host.Tell(MachineCommand.Reset));
        Assert.Equal(Answer.Accepted, host.Tell(SetupMessages.OfMachine(host.Machine)));
        Assert.Equal(Answer.NoSetup, host.Tell(MachineCommand.Reset));
        host.TellMachine();
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Reach(MachineState.Idle);
        Assert.Equal(Answer.NoRun, host.Tell(MachineCommand.Start));
        host.Tell(new Begin(1, 1));
        host.Tell(SetupMessages.OfAxes(host.Machine).First());
        Assert.Equal(Answer.NotReferenced, host.Tell(MachineCommand.Start));
        Assert.Equal(Answer.NotReferenced, host.Tell(new Begin(1, 1)));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Stop));
        host.Reach(MachineState.Stopped);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Said.Clear();
        host.Reach(MachineState.Idle);
        host.Start(Record.End);
        host.Reach(MachineState.Complete);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Said.Clear();
        host.Reach(MachineState.Idle);
        Assert.Equal(Answer.NoRun, host.Tell(MachineCommand.Start));
    }

    [ContractFact]
    public void A_run_that_the_host_completes_early_is_not_said_to_be_a_complete_job()
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Complete));
        host.Reach(MachineState.Complete);
        Assert.Equal(StateCause.Operator, host.Last.Cause);
        Assert.True(host.Last.RecordsDone < 3);
    }

    [ContractFact]
    public void After_a_watchdog_reset_it_is_aborted_says_why_and_knows_nothing()
    {
        using var device = make(ContractMachines.Plotter, 8);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        device.Reset(ResetReason.Watchdog);
        var place = device.PlaceOf(AxisName.X);
        var welcome = host.Hello(0x4444);
        Assert.Equal((MachineState.Aborted, ResetReason.Watchdog), (welcome.State, welcome.ResetReason));
        Assert.Equal((StateCause.Watchdog, (ushort)0), (host.Ask().Cause, host.Last.RunId));
        host.Pass(1);
        Assert.Equal((place, false), (device.PlaceOf(AxisName.X), device.DriversAreOn));
        host.Tell(MachineCommand.Clear);
        Assert.Equal(Answer.NoSetup, host.Tell(MachineCommand.Reset));
    }

    private static IEnumerable<MachineCommand> Commands() => Enum.GetValues<MachineCommand>().Where(StateTable.IsDefined);
}

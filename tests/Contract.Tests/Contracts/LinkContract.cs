using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Sessions, and the order of messages.</summary>
public abstract class LinkContract(DeviceMaker make)
{
    public static TheoryData<MachineState> Moving => [.. Situation.Moving];

    [ContractFact]
    public void Without_a_session_it_says_and_does_nothing()
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter) { Session = 0x34 };
        host.Beat();
        host.Send(0, new Command(MachineCommand.Clear));
        host.Wait(() => false, 0.1);
        Assert.Equal(0, host.Frames);
        Assert.Equal(MachineState.Aborted, host.Hello().State);
    }

    [ContractFact]
    public void Frames_of_another_session_are_ignored()
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.Hello();
        host.Wait(() => false, 0.02);
        var frames = host.Frames;
        host.Send(0, new Command(MachineCommand.Clear), session: 0x99);
        host.Send(0, new Beat(), session: 0x99);
        host.Wait(() => false, 0.05);
        Assert.Equal(frames, host.Frames);
        Assert.Equal((MachineState.Aborted, (byte)0), (host.Ask().State, host.Expected));
    }

    [ContractFact]
    public void A_message_is_executed_once_however_often_it_comes()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter);
        host.Hello();
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Clear));
        host.Reach(MachineState.Stopped, 1);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Abort));
        for (var time = 0; time < 3; time++)
            host.Send(0, new Command(MachineCommand.Clear));
        Assert.Equal((MachineState.Aborted, (byte)2, false), (host.Ask().State, host.Expected, host.Last.Gap));
    }

    [ContractFact]
    public void A_message_that_comes_too_early_waits_for_the_one_before()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.Hello();
        host.Send(1, new Command(MachineCommand.Clear));
        Assert.True(host.Wait(() => host.Last.Gap, 0.05));
        Assert.Equal((MachineState.Aborted, (byte)0), (host.State, host.Expected));
        host.Number = 0;
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Clear));
        Assert.False(host.Last.Gap);
    }

    [ContractFact]
    public void A_beat_tells_of_a_message_that_was_lost()
    {
        using var device = make(ContractMachines.Plotter, 5);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.Hello();
        host.Number = 1; // the message 0 never came
        Assert.True(host.Ask().Gap);
        host.Number = 0;
        Assert.True(host.Ask().Gap); // it stays until the message comes
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Clear));
        Assert.False(host.Last.Gap);
    }

    [ContractFact]
    public void Half_the_numbers_ahead_is_a_gap_and_half_behind_a_duplicate()
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.Hello();
        host.Send(0x81, new Command(MachineCommand.Clear)); // 127 behind: a duplicate
        host.Wait(() => false, 0.02);
        Assert.Equal((false, (byte)0), (host.Last.Gap, host.Expected));
        host.Send(0x80, new Command(MachineCommand.Clear)); // exactly 128 away
        host.Wait(() => false, 0.02);
        Assert.Equal((true, (byte)0, MachineState.Aborted), (host.Last.Gap, host.Expected, host.State));
    }

    [ContractFact]
    public void Numbers_go_around()
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = new Host(device, ContractMachines.Plotter);
        host.Hello();
        for (var time = 0; time < 300; time++)
            Assert.Equal(Answer.WrongState, host.Tell(MachineCommand.Start));
        Assert.Equal(300 % 256, host.Expected);
    }

    [ContractFact]
    public void The_same_hello_again_changes_nothing()
    {
        using var device = make(ContractMachines.Plotter, 8);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Execute);
        var expected = host.Expected;
        host.Send(0, new Hello(Hello.CurrentVersion, 0x1234));
        host.Wait(() => false, 0.02);
        Assert.Equal((expected, MachineState.Execute), (host.Expected, host.Welcome!.Value.State));
        host.Reach(MachineState.Complete);
    }

    [ContractFact]
    public void A_hello_of_another_version_is_told_ours_and_opens_nothing()
    {
        using var device = make(ContractMachines.Plotter, 9);
        var host = new Host(device, ContractMachines.Plotter);
        host.SendFrame([1, 0x42, 0, 2, 0x42, 0x42, 9, 9, 9]); // and what may follow in another version is ignored
        Assert.True(host.Wait(() => host.Welcome is not null, 0.05));
        Assert.Equal((0x4242, Hello.CurrentVersion, 0), (host.Welcome!.Value.Token, host.Welcome.Value.WireVersion, host.Expected));
        host.Send(0, new Command(MachineCommand.Clear), session: 0x42);
        host.Wait(() => false, 0.05);
        Assert.Empty(host.Said);
    }

    [ContractTheory]
    [MemberData(nameof(Moving))]
    public void A_new_session_in_motion_comes_to_rest_and_keeps_the_run(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 10);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        host.Hello(0x5678);
        host.Reach(state == MachineState.Resetting ? MachineState.Stopped : MachineState.Held);
        Assert.Equal((StateCause.HostRestarted, false, (byte)0), (host.Last.Cause, host.Last.Working, host.Expected));
        var cells = host.Worked.Count;
        host.Pass(1);
        Assert.Equal(cells, host.Worked.Count);
        if (state != MachineState.Execute)
            return;
        Assert.Equal((7, 3u), (host.Last.RunId, host.Last.RecordsTaken));
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Situation.Job), host.Worked);
    }

    [ContractTheory]
    [InlineData(MachineState.Aborted)]
    [InlineData(MachineState.Stopped)]
    [InlineData(MachineState.Idle)]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Complete)]
    public void A_new_session_at_rest_changes_no_state(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 11);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        var cause = host.Ask().Cause;
        host.Hello(0x5678);
        host.Pass(0.5);
        Assert.Equal((state, cause, (byte)0, Answer.Accepted), (host.Ask().State, host.Last.Cause, host.Last.AnswerNumber, host.Last.Answer));
    }

    [ContractTheory]
    [MemberData(nameof(Moving))]
    public void A_silent_line_in_motion_is_a_controlled_stop_and_its_return_goes_on_with_nothing(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 12);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        host.IsQuiet = true;
        host.Beat();
        var since = device.Now;
        var rest = state == MachineState.Resetting ? MachineState.Stopped : MachineState.Held;
        host.Reach(rest, 3);
        // A queue that runs dry holds after the same time; whichever came first is told.
        Assert.Contains(host.Last.Cause, state is MachineState.Suspended or MachineState.Suspending
            ? new[] { StateCause.LineSilent, StateCause.Starved } : [StateCause.LineSilent]);
        Assert.InRange((device.Now - since).TotalSeconds, 0.2, 0.3 + 0.35);
        var cells = host.Worked.Count;
        host.IsQuiet = false;
        host.Pass(1);
        Assert.Equal((rest, cells), (host.State, host.Worked.Count));
        if (state != MachineState.Execute)
            return;
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Unhold));
        host.Reach(MachineState.Complete);
        Assert.Equal(Jobs.CellsOf(host.Machine, Situation.Job), host.Worked);
    }

    [ContractFact]
    public void Silence_at_rest_is_no_fault()
    {
        using var device = make(ContractMachines.Plotter, 13);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(MachineState.Idle);
        host.IsQuiet = true;
        host.Pass(3);
        Assert.Equal(MachineState.Idle, host.Ask().State);
    }

    // Forty messages of 66 octets: 53 ms of the line. Ten in flight are 13 ms, so a board that waits for silence holds its host up.
    // It is the emulated board that can fall short: the native core has a turn without an octet whenever a wait ends.
    [ContractFact]
    public void A_line_that_is_never_silent_is_answered_all_the_same()
    {
        const int messages = 40;
        using var device = make(ContractMachines.Plotter, 14);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.Hello();
        host.Said.Clear();
        for (; host.Number < messages; host.Number++)
            host.SendFrame([0x60, host.Session, host.Number, .. new byte[FrameFormat.MaxBody]]);
        Assert.True(host.Wait(() => host.Expected == messages, 0.1));
        Assert.InRange(host.Said.Count, messages / 2, messages + 1);
    }
}

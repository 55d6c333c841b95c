using Bridge.Runs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Each message, and what is wrong with one.</summary>
public abstract class MessageContract(DeviceMaker make)
{
    private const byte LastKnown = (byte)MessageType.Records;

    /// <summary>Bodies of numbered messages that must not be read; those of set_axis and the like where they are allowed.</summary>
    public static TheoryData<string, string> BadBodies()
    {
        var bodies = new TheoryData<string, string>();
        foreach (var fields in Vectors.Of("wire/bad-bodies.txt"))
            if (Convert.FromHexString(fields[1])[0] is > 2 and < 0x80 and not (byte)MessageType.Jog)
                bodies.Add(fields[0], fields[1]);
        return bodies;
    }

    [ContractTheory]
    [MemberData(nameof(BadBodies))]
    public void A_body_outside_its_ranges_is_refused_and_its_number_consumed(string name, string hex)
    {
        using var device = make(ContractMachines.Plotter, name.Length);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        var frame = Convert.FromHexString(hex);
        Assert.Equal(Answer.BadValue, host.TellRaw(frame[0], frame[3..]));
        Assert.Equal((MachineState.Idle, host.Number), (host.State, host.Expected));
        host.Start(Record.End);
        host.Reach(MachineState.Complete);
    }

    [ContractFact]
    public void Welcome_says_what_the_device_is()
    {
        using var device = make(ContractMachines.Plotter, 1);
        var host = new Host(device, ContractMachines.Plotter);
        var welcome = host.Hello(0xBEEF);
        Assert.Equal((0xBEEF, Hello.CurrentVersion, FrameFormat.MaxContent), (welcome.Token, welcome.WireVersion, welcome.MaxContent));
        Assert.True(welcome.QueueRecords >= 1);
        Assert.True(welcome.Widths.HasFlag(AxisWidths.Four));
        Assert.Equal(0, host.Expected);
    }

    [ContractFact]
    public void A_message_of_an_unknown_type_is_refused()
    {
        using var device = make(ContractMachines.Plotter, 2);
        var host = new Host(device, ContractMachines.Plotter);
        host.Hello();
        for (var type = LastKnown + 8; type < 0x80; type++)
            Assert.Equal(Answer.UnknownMessage, host.TellRaw((byte)type, 1, 2, 3));
        Assert.Equal(MachineState.Aborted, host.State);
    }

    [ContractFact]
    public void Messages_that_no_host_sends_and_bad_unnumbered_ones_are_ignored()
    {
        using var device = make(ContractMachines.Plotter, 3);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.Hello();
        host.Wait(() => false, 0.02);
        var frames = host.Frames;
        foreach (byte type in new byte[] { 0x00, 0x80, 0x81, 0x82, 0x83, 0xFF })
            host.SendFrame([type, host.Session, 0]);
        host.SendFrame([(byte)MessageType.Beat, host.Session, 0, 0]); // a beat has no body
        host.SendFrame([(byte)MessageType.Hello, 0x34, 0, 1, 0x12]);  // one octet short
        host.Wait(() => false, 0.05);
        Assert.Equal((frames, 0), (host.Frames, host.Expected));
    }

    [ContractFact]
    public void A_frame_that_is_damaged_is_not_answered_and_the_next_one_is()
    {
        using var device = make(ContractMachines.Plotter, 4);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.Hello();
        host.Wait(() => false, 0.02);
        var frames = host.Frames;
        device.Receive([0x7E, 0x07, 0x34, 0x00, 0x09, 0xF1, 0xD2, 0x7E]);                // the check sequence
        device.Receive([0x7E, 0x07, 0x34, 0x00, 0x09, 0x7F, 0xF1, 0xD3, 0x7E]);          // a bare 7F
        device.Receive([0x7E, 0x07, 0x34, 0x00, 0x09, 0xF1, 0xD3, 0x7D, 0x7E]);          // aborted
        device.Receive([0x7E, .. Enumerable.Repeat((byte)0x55, 200), 0x7E]);             // too long
        host.Wait(() => false, 0.05);
        Assert.Equal((frames, 0), (host.Frames, host.Expected));
        device.Receive([0x07, 0x34, 0x00, 0x09, 0xF1, 0xD3, 0x7E]); // the flag before opened it
        Assert.True(host.Wait(() => host.Expected == 1, 0.05));
        host.Reach(MachineState.Stopped, 1);
    }

    [ContractFact]
    public void A_beat_is_answered_with_all_that_the_device_knows()
    {
        using var device = make(ContractMachines.Plotter, 5);
        var host = new Host(device, ContractMachines.Plotter);
        host.GetReady();
        var status = host.Ask();
        Assert.Equal((MachineState.Idle, StateCause.Operator, (ushort)0), (status.State, status.Cause, status.RunId));
        Assert.Equal(BoardInputs.ReferencedX | BoardInputs.ReferencedY, status.Inputs);
        Assert.Equal((0u, 0u, 0u, 0u), (status.RecordsTaken, status.RecordsLimit, status.RecordsDone, status.CellsDone));
        Assert.Equal((0, 0, 0, 0, false, false), (status.X, status.Y, status.Layer, status.Head, status.Working, status.Gap));
        device.StartIsPressed = true;
        Assert.True(host.Ask().Inputs.HasFlag(BoardInputs.StartButton));
        device.StartIsPressed = false;
        host.Pass(0.2);
        Assert.False(host.Ask().Inputs.HasFlag(BoardInputs.StartButton));
        Assert.Equal(MachineState.Idle, host.State); // with a host on the line the button starts nothing
    }

    [ContractFact]
    public void It_tells_its_status_every_fifty_milliseconds_while_it_moves_and_not_at_rest()
    {
        using var device = make(ContractMachines.Plotter, 6);
        var host = new Host(device, ContractMachines.Plotter) { IsQuiet = true };
        host.SetUp();
        host.Pass(0.1);
        host.Said.Clear();
        host.Pass(1);
        Assert.Empty(host.Said);
        Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Reset));
        host.Pass(0.01);
        host.Said.Clear();
        host.Pass(0.25);
        Assert.InRange(host.Said.Count, 4, 6);
    }

    [ContractTheory]
    [InlineData(MachineState.Resetting)]
    [InlineData(MachineState.Execute)]
    [InlineData(MachineState.Held)]
    [InlineData(MachineState.Suspended)]
    [InlineData(MachineState.Complete)]
    public void A_setup_and_a_run_are_refused_where_they_may_not_begin(MachineState state)
    {
        using var device = make(ContractMachines.Plotter, 7);
        var host = new Host(device, ContractMachines.Plotter);
        host.Bring(state);
        Assert.Equal(Answer.WrongState, host.Tell(SetupMessages.OfMachine(host.Machine)));
        Assert.Equal(Answer.WrongState, host.Tell(SetupMessages.OfAxes(host.Machine).First()));
        Assert.Equal(Answer.WrongState, host.Tell(SetupMessages.OfHeads(host.Machine).First()));
        Assert.Equal(Answer.WrongState, host.Tell(new Begin(1, 1)));
        Assert.Equal(state, host.State);
    }

    [ContractFact]
    public void A_speed_that_the_device_cannot_make_is_refused()
    {
        using var device = make(ContractMachines.Plotter, 8);
        var host = new Host(device, ContractMachines.Plotter);
        host.Hello();
        var axis = SetupMessages.OfAxes(host.Machine).First() with { TopSpeed = uint.MaxValue, ReferenceSpeed = 1 };
        Assert.Equal(device.MostStepsPerSecond is null ? Answer.Accepted : Answer.SpeedTooHigh, host.Tell(axis));
        if (device.MostStepsPerSecond is { } most)
            Assert.Equal(Answer.Accepted, host.Tell(axis with { TopSpeed = most }));
    }

    [ContractFact]
    public void A_width_that_the_device_does_not_name_is_refused_and_those_it_names_are_taken()
    {
        using var device = make(ContractMachines.Plotter, 9);
        var host = new Host(device, ContractMachines.Plotter);
        var widths = host.Hello().Widths;
        foreach (var (bits, width) in new[] { (4, AxisWidths.Four), (8, AxisWidths.Eight), (12, AxisWidths.Twelve) })
            Assert.Equal(widths.HasFlag(width) ? Answer.Accepted : Answer.WrongWidth,
                host.Tell(SetupMessages.OfMachine(host.Machine) with { AxisBits = (byte)bits }));
    }
}

using Bridge.Jobs;
using Bridge.Wire;
using CsCheck;

namespace Bridge.Mock.Tests;

public class LinkTests
{
    [Fact]
    public void Without_a_session_it_says_nothing()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Beat();
        bench.Send(0, new Command(MachineCommand.Clear));
        Assert.Empty(bench.Said);
        Assert.Equal(MachineState.Aborted, bench.Device.State);
    }

    [Fact]
    public void Frames_of_another_session_are_ignored()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Hello();
        bench.Send(0, new Command(MachineCommand.Clear), session: 0x99);
        Assert.Empty(bench.Said);
        Assert.Equal(MachineState.Aborted, bench.Device.State);
    }

    [Fact]
    public void A_message_is_executed_once_however_often_it_comes()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Hello();
        bench.Send(0, new Command(MachineCommand.Clear));
        bench.Send(1, new Command(MachineCommand.Abort));
        bench.Send(0, new Command(MachineCommand.Clear));
        Assert.Equal((MachineState.Aborted, (byte)2, false), (bench.Last.State, bench.Expected, bench.Last.Gap));
    }

    [Fact]
    public void A_message_that_comes_too_early_waits_for_the_one_before()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Hello();
        bench.Send(1, new Command(MachineCommand.Clear));
        Assert.Equal((MachineState.Aborted, (byte)0, true), (bench.Last.State, bench.Expected, bench.Last.Gap));
        bench.Send(0, new Command(MachineCommand.Clear));
        Assert.Equal((MachineState.Stopped, (byte)1, false), (bench.Last.State, bench.Expected, bench.Last.Gap));
    }

    [Fact]
    public void The_same_hello_again_is_answered_and_changes_nothing()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        var expected = bench.Expected;
        bench.Send(0, new Hello(Hello.CurrentVersion, 0x1234));
        Assert.Equal((expected, MachineState.Idle), (bench.Expected, bench.Welcome!.Value.State));
    }

    [Fact]
    public void A_hello_of_another_version_is_told_ours_and_opens_nothing()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Send(0, new Hello(2, 0x4242));
        Assert.Equal((ushort)0x4242, bench.Welcome!.Value.Token);
        Assert.Equal(Hello.CurrentVersion, bench.Welcome.Value.WireVersion);
        bench.Send(0, new Command(MachineCommand.Clear), session: 0x42);
        Assert.Equal(MachineState.Aborted, bench.Device.State);
    }

    [Fact]
    public void An_unknown_message_is_refused_and_its_number_consumed()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.Hello();
        SendRaw(bench, [0x55, 0x34, 0x00]);
        Assert.Equal((Answer.UnknownMessage, (byte)0, (byte)1), (bench.Last.Answer, bench.Last.AnswerNumber, bench.Expected));
        SendRaw(bench, [0x07, 0x34, 0x01, 0x0B]);
        Assert.Equal((Answer.BadValue, (byte)1, (byte)2), (bench.Last.Answer, bench.Last.AnswerNumber, bench.Expected));
        var said = bench.Said.Count;
        SendRaw(bench, [0x80, 0x34, 0x02]);
        Assert.Equal((said, (byte)2), (bench.Said.Count, bench.Expected));
    }

    [Fact]
    public void It_tells_its_status_every_fifty_milliseconds_while_it_moves_and_not_at_rest()
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.SetUp();
        bench.Pass(1);
        bench.IsQuiet = true;
        var said = bench.Said.Count;
        bench.Pass(1);
        Assert.Equal(said, bench.Said.Count);
        bench.IsQuiet = false;
        bench.Tell(MachineCommand.Reset);
        said = bench.Said.Count;
        bench.Pass(1);
        Assert.InRange(bench.Said.Count - said, 19, 31);
    }

    [Fact]
    public void A_silent_device_works_and_never_answers()
    {
        var bench = new Bench(TestMachines.Plotter, MockFaults.Parse("silent"));
        bench.Hello();
        bench.Send(0, new Command(MachineCommand.Clear));
        Assert.Null(bench.Welcome);
        Assert.Empty(bench.Said);
        Assert.Equal(MachineState.Stopped, bench.Device.State);
    }

    [Fact]
    public void No_octets_upset_it() => Gen.Select(Gen.Byte.Array[0, 80], Gen.Byte[1, 9], Gen.Int[0, 2]).Array[1, 20].Sample(parts =>
    {
        var bench = new Bench(TestMachines.Plotter);
        bench.GetReady();
        bench.Start(Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 16), Record.End);
        var number = bench.Expected;
        foreach (var (octets, type, how) in parts)
        {
            bench.Pass(0.1);
            if (how == 0)
                bench.Receive(octets);
            else
                SendRaw(bench, [type, 0x34, number++, .. octets.Take(59)]);
            Assert.True(StateTable.IsDefined(bench.Device.State));
        }

        Assert.Equal(0, bench.Device.Gantry.MovesWithoutPower);
    }, iter: 300);

    private static void SendRaw(Bench bench, byte[] frame)
    {
        var output = new System.Buffers.ArrayBufferWriter<byte>();
        FrameEncoder.Encode(frame, output);
        bench.Receive(output.WrittenSpan);
    }
}

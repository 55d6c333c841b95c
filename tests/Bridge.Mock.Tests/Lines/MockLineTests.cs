using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class MockLineTests
{
    private static readonly RecordWidth N = RecordWidth.Four;

    private static Image Snake(int rows) => Image.Of(N,
        [.. Enumerable.Range(0, rows).Select(y => Record.Row(N, Head.A, new Cell(0, y % 16), 0, 16)), Record.End]);

    [Fact]
    public async Task A_job_streams_over_a_line_in_virtual_time()
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(TestMachines.Plotter, time, seed: 3);
        using var line = port.Open();
        var host = new StreamingHost(line, time);
        await host.Open();
        await host.SetUp(TestMachines.Plotter);
        var begun = time.Now;
        var image = Snake(40);
        await host.Stream(N, image.Bytes);
        Assert.Equal((MachineState.Complete, 41u), (host.Last!.Value.State, host.Last.Value.RecordsDone));
        Assert.Equal(640, port.ByHand(device => device.Gantry.CellsWorked));
        Assert.Equal(Timetable.Of(image, TestMachines.Plotter).Seconds, (time.Now - begun).TotalSeconds, 0.1);
    }

    [Theory]
    [InlineData("drop=0.1")]
    [InlineData("flip=0.1")]
    [InlineData("duplicate=0.2")]
    [InlineData("late=0.05, late-ms=40")]
    [InlineData("drop=0.05, flip=0.05, duplicate=0.05, late=0.02")]
    public async Task A_bad_line_costs_time_and_no_cell(string faults)
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(TestMachines.Plotter, time, seed: 5, MockFaults.Parse(faults));
        using var line = port.Open();
        var host = new StreamingHost(line, time);
        await host.Open();
        await host.SetUp(TestMachines.Plotter);
        var image = Snake(60);
        await host.Stream(N, image.Bytes);
        Assert.Equal(MachineState.Complete, host.Last!.Value.State);
        Assert.Equal(RunTests.CellsOf(TestMachines.Plotter, [.. Enumerable.Range(0, image.Count).Select(index => image[index])]),
            port.ByHand(device => device.Gantry.Worked.ToList()));
    }

    [Fact]
    public async Task Twenty_thousand_cells_pass_in_virtual_time()
    {
        var machine = TestMachines.Of(new HeadTool.Dot(TimeSpan.FromSeconds(0.05), 0, 0), null, width: RecordWidth.Eight, cells: 256);
        var time = new VirtualTime();
        using var port = MockPort.Of(machine, time, seed: 3);
        using var line = port.Open();
        var host = new StreamingHost(line, time);
        await host.Open();
        await host.SetUp(machine);
        var records = Enumerable.Range(0, 20_000)
            .Select(cell => Record.Row(RecordWidth.Eight, Head.A, new Cell(cell % 250, cell / 250), 0, 1)).Append(Record.End);
        await host.Stream(RecordWidth.Eight, Image.Of(RecordWidth.Eight, [.. records]).Bytes);
        Assert.Equal(MachineState.Complete, host.Last!.Value.State);
        Assert.Equal(20_000, port.ByHand(device => device.Gantry.CellsWorked));
    }

    [Fact]
    public async Task A_line_that_is_cut_closes_and_the_run_is_held_until_a_new_one_goes_on_with_it()
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(TestMachines.GantryOfDots, time, seed: 3, MockFaults.Parse("cut-at=20"));
        using var line = port.Open();
        var host = new StreamingHost(line, time);
        await host.Open();
        await host.SetUp(TestMachines.GantryOfDots);
        var image = Snake(4);
        await host.Begin(N, image.Bytes);
        Assert.False(await host.Until(() => false));
        Assert.Equal((false, "the line was cut"), (line.IsOpen, line.ClosedBecause));
        port.LetPass(TimeSpan.FromSeconds(5));
        Assert.Equal((MachineState.Held, StateCause.LineSilent), port.ByHand(device => (device.State, device.Cause)));

        using var another = port.Open();
        var next = new StreamingHost(another, time);
        await next.Open(0x9876);
        await next.Tell(new Command(MachineCommand.Unhold));
        Assert.True(await next.Until(() => next.Last!.Value.State == MachineState.Complete));
        Assert.Equal(64, port.ByHand(device => device.Gantry.CellsWorked));
    }

    [Fact]
    public async Task Octets_take_ten_bits_each_and_the_delay()
    {
        var time = new VirtualTime();
        using var port = new MockPort(new MockDevice(new Gantry(TestMachines.Plotter, 1)), time, baud: 10_000);
        using var line = port.Open();
        var frame = new byte[FrameFormat.MaxContent];
        var octets = new byte[FrameFormat.MaxOnLine];
        var length = FrameEncoder.Encode(frame.AsSpan(0, FrameHeader.Compose(frame, 0x34, 0, new Hello(1, 0x1234))), octets);
        line.Write(octets.AsSpan(0, length));
        await line.WaitAsync(TimeSpan.FromSeconds(9), CancellationToken.None);
        var answer = line.Read(octets);
        var expected = TimeSpan.FromMilliseconds(length + answer) + 2 * MockPort.Delay;
        Assert.Equal(expected.TotalMilliseconds, time.Now.TotalMilliseconds, 3);
    }

    [Fact]
    public async Task Waiting_without_news_passes_just_the_time_asked_for()
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(TestMachines.Plotter, time, seed: 1);
        using var line = port.Open();
        await line.WaitAsync(TimeSpan.FromSeconds(3), CancellationToken.None);
        Assert.Equal(TimeSpan.FromSeconds(3), time.Now);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(
            async () => await line.WaitAsync(TimeSpan.FromSeconds(1), new CancellationToken(canceled: true)));
        line.Dispose();
        await line.WaitAsync(TimeSpan.FromSeconds(3), CancellationToken.None);
        Assert.Equal((TimeSpan.FromSeconds(3), "closed by the host"), (time.Now, line.ClosedBecause));
    }

    [Fact]
    public async Task What_overtakes_goes_out_behind_the_frame_that_is_leaving_and_the_rest_is_dropped()
    {
        var time = new VirtualTime();
        using var port = new MockPort(new MockDevice(new Gantry(TestMachines.Plotter, 1)), time, baud: 10_000); // an octet in a millisecond
        using var line = port.Open();
        var (filler, hello) = (Encoded(new Beat()), Encoded(new Hello(Hello.CurrentVersion, 0x1234)));
        for (var count = 0; count < 50; count++)
            line.Write(filler);

        line.Overtake(hello);
        var octets = new byte[100];
        while (line.Read(octets) == 0 && time.Now < TimeSpan.FromSeconds(1))
            await line.WaitAsync(TimeSpan.FromSeconds(1), CancellationToken.None);

        Assert.InRange(time.Now, TimeSpan.FromMilliseconds(filler.Length + hello.Length), TimeSpan.FromMilliseconds(filler.Length + hello.Length + 30));
    }

    private static byte[] Encoded<T>(in T message)
        where T : struct, IMessage
    {
        var output = new System.Buffers.ArrayBufferWriter<byte>();
        FrameEncoder.Encode(0x34, 0, message, output);
        return output.WrittenSpan.ToArray();
    }

    [Fact]
    public void A_line_opened_anew_closes_the_one_before_and_what_is_written_to_that_is_dropped()
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(TestMachines.Plotter, time, seed: 1);
        using var first = port.Open();
        using var second = port.Open();
        Assert.Equal((false, true, "opened anew"), (first.IsOpen, second.IsOpen, first.ClosedBecause));
        first.Write([0x7F, 0x7F]);
        first.Dispose();
        Assert.True(second.IsOpen);
    }

    [Fact]
    public async Task In_real_time_it_answers_within_real_milliseconds()
    {
        using var port = MockPort.Of(TestMachines.Plotter, TimeProvider.System, seed: 1);
        using var line = port.Open();
        var host = new StreamingHost(line, TimeProvider.System);
        await host.Open();
        await host.Tell(new Command(MachineCommand.Clear));
        Assert.Equal(MachineState.Stopped, host.Last!.Value.State);
        port.ByHand(device => device.Gantry.PressEStop());
        Assert.Equal((MachineState.Aborted, StateCause.EStop), port.ByHand(device => (device.State, device.Cause)));
        Assert.True(await host.Until(() => host.Last.Value.State == MachineState.Aborted));
    }

    [Fact]
    public async Task The_same_seed_gives_the_same_run()
    {
        var times = new List<(TimeSpan, long)>();
        for (var run = 0; run < 2; run++)
        {
            var time = new VirtualTime();
            using var port = MockPort.Of(TestMachines.Plotter, time, seed: 11, MockFaults.Parse("drop=0.1,flip=0.1"));
            using var line = port.Open();
            var host = new StreamingHost(line, time);
            await host.Open();
            await host.SetUp(TestMachines.Plotter);
            await host.Stream(N, Snake(8).Bytes);
            times.Add((time.Now, host.Link.Retransmissions));
        }

        Assert.Equal(times[0], times[1]);
    }
}

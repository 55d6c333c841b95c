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
    public async Task Sixty_thousand_cells_pass_in_virtual_time()
    {
        var machine = TestMachines.Of(new HeadTool.Dot(TimeSpan.FromSeconds(0.05), 0, 0), null, width: RecordWidth.Eight, cells: 256);
        var time = new VirtualTime();
        using var port = MockPort.Of(machine, time, seed: 3);
        using var line = port.Open();
        var host = new StreamingHost(line, time);
        await host.Open();
        await host.SetUp(machine);
        var records = Enumerable.Range(0, 60_000)
            .Select(cell => Record.Row(RecordWidth.Eight, Head.A, new Cell(cell % 250, cell / 250), 0, 1)).Append(Record.End);
        await host.Stream(RecordWidth.Eight, Image.Of(RecordWidth.Eight, [.. records]).Bytes);
        Assert.Equal(MachineState.Complete, host.Last!.Value.State);
        Assert.Equal(60_000, port.ByHand(device => device.Gantry.CellsWorked));
    }
}

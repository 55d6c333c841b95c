namespace Bridge.Cli.Tests;

public sealed class TraceTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_job_becomes_signals_by_the_model_and_by_a_run_of_the_mock_device()
    {
        var job = await _folder.KiteJob();
        var ran = await InProcess.Run("trace", job, "--machine", _folder.Plotter, "--out", _folder.In("model.vcd"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("endstops and e-stop stay at rest", ran.Output);
        Assert.Contains("$var wire 1 ! step_x $end", await File.ReadAllTextAsync(_folder.In("model.vcd")));
        ran = await InProcess.Run("trace", job, "--machine", _folder.Plotter, "--device", "mock", "--out", _folder.In("mock.vcd"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Complete: ", ran.Output);
        Assert.Matches(@"\n#\d+\n$", await File.ReadAllTextAsync(_folder.In("mock.vcd")));
    }

    [Fact]
    public async Task A_fault_of_the_mock_device_ends_the_trace_as_it_ends_a_run()
    {
        var ran = await InProcess.Run("trace", await _folder.KiteJob(), "--machine", _folder.Plotter, "--device", "mock", "--faults", "estop-at=5",
            "--out", _folder.In("stopped.vcd"));
        Assert.Equal(4, ran.ExitCode);
        Assert.Contains("Aborted: ", ran.Output);
        Assert.Contains("stopped.vcd", _folder.Names);
    }

    [Fact]
    public async Task The_folder_of_a_run_becomes_the_lines_that_its_journal_knows_and_what_is_missing_is_said()
    {
        var job = await _folder.KiteJob();
        await InProcess.Run("run", job, "--machine", _folder.Plotter, "--fast", "--runs", _folder.In("runs"));
        var run = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        var ran = await InProcess.Run("trace", "--run", run, "--out", _folder.In("run.vcd"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Steps, directions, endstops and the e-stop are not there", ran.Output);
        var trace = await File.ReadAllTextAsync(_folder.In("run.vcd"));
        Assert.DoesNotContain("step_x $end", trace);
        // Referencing, ready, working, complete, and the last record in the end (ISA-TR88.00.02 has the numbers of the states).
        var lines = trace.Split('\n');
        var changes = lines.Where(line => line.EndsWith($" {CodeOf("state")}", StringComparison.Ordinal));
        var states = changes.Select(line => Convert.ToInt32(line[1..^2], 2)).ToList();
        Assert.Equal([15, 4, 6, 17], states.Where(state => state is 15 or 4 or 6 or 17));
        Assert.Contains($"b{19:b} {CodeOf("record")}", lines);

        string CodeOf(string name) => lines.Single(line => line.EndsWith($" {name} $end", StringComparison.Ordinal)).Split(' ')[3];
    }

    [Theory]
    [InlineData("--out", "x.vcd")]
    [InlineData("kite.job", "--out", "x.vcd")]
    [InlineData("kite.job", "--machine", "m.toml")]
    [InlineData("kite.job", "--machine", "m.toml", "--out", "x.vcd", "--device", "/dev/ttyACM0")]
    [InlineData("kite.job", "--machine", "m.toml", "--out", "x.vcd", "--faults", "estop-at=5")]
    [InlineData("kite.job", "--machine", "m.toml", "--out", "x.vcd", "--records", "0")]
    [InlineData("kite.job", "--run", "runs/x", "--out", "x.vcd")]
    [InlineData("--run", "runs/x", "--out", "x.vcd", "--device", "mock")]
    public async Task What_does_not_go_together_is_misuse(params string[] args) =>
        (await InProcess.Run(["trace", .. args])).AssertMisused("--");

    [Fact]
    public async Task A_folder_that_is_none_of_a_run_is_refused()
    {
        (await InProcess.Run("trace", "--run", _folder.Path, "--out", _folder.In("x.vcd"))).AssertRefused("job.job");
        Assert.DoesNotContain("x.vcd", _folder.Names);
    }

    [Fact]
    public async Task What_cannot_be_traced_leaves_no_file_and_keeps_the_one_that_was_there()
    {
        var fast = _folder.Write("fast.toml", (await File.ReadAllTextAsync(_folder.Plotter)).Replace("top_speed_mm_s = 60 ", "top_speed_mm_s = 10000 ")
            .Replace("steps_per_mm = 80", "steps_per_mm = 1000"));
        var trace = _folder.Write("x.vcd", "as it was");
        (await InProcess.Run("trace", await _folder.KiteJob(), "--machine", fast, "--out", trace)).AssertRefused("axes.x");
        Assert.Equal("as it was", await File.ReadAllTextAsync(trace));
        Assert.DoesNotContain(_folder.Names, name => name.EndsWith(".part", StringComparison.Ordinal));
    }
}

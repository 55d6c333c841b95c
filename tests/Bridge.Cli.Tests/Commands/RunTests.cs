using Bridge.Runs;

namespace Bridge.Cli.Tests;

public sealed class RunTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_run_is_complete_and_leaves_its_records()
    {
        var ran = await Run(await _folder.KiteJob());
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Caution: a run can move a machine", ran.Output);
        Assert.Contains("Complete: ", ran.Output);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        Assert.Contains(folder, ran.Output);
        Assert.All(new[] { "job.job", "machine.toml", "journal.jsonl", "events.clef", "summary.json", "pictures/layer-000.png" },
            name => Assert.True(new FileInfo(Path.Combine(folder, name)) is { Exists: true, Length: > 0 }, name));
        Assert.Equal(File.ReadAllBytes(_folder.In("kite.job")), File.ReadAllBytes(Path.Combine(folder, "job.job")));
    }

    [Theory]
    [InlineData("estop-at=5", 4, "Aborted: ")]
    [InlineData("endstop-closed=x:5", 4, "Aborted: ")]
    [InlineData("silent", 5, "NoAnswer: ")]
    [InlineData("cut-at=5", 5, "LineLost: ")]
    [InlineData("drop=0.05,flip=0.05", 0, "Complete: ")]
    public async Task The_exit_code_tells_how_it_ended(string faults, int code, string word)
    {
        var ran = await Run(await _folder.KiteJob(), "--faults", faults, "--seed", "7");
        Assert.True(code == ran.ExitCode, ran.Output + ran.Error);
        Assert.Contains(word, ran.Output);
        Assert.Contains("Run folder: ", ran.Output);
    }

    [Fact]
    public async Task A_wait_is_gone_on_from_where_nobody_is_there()
    {
        // Two cells, hold for the operator, wait a second, two cells (JOB-FORMAT.md, section 2).
        var image = _folder.Write("image", Convert.FromHexString("400001" + "C20000" + "C0000A" + "400101" + "000000"));
        var ran = await InProcess.Run("run", image, "--raw", "--machine", _folder.Quick(0), "--fast", "--runs", _folder.In("runs"));
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Contains("Held", ran.Output);
    }

    [Fact]
    public async Task Steps_that_were_skipped_are_told()
    {
        var ran = await Run(await _folder.KiteJob(), "--faults", "skip=x:5:-400");
        Assert.Contains("What the mock's gantry really worked differs", ran.Output);
        var summary = RunSummary.FromJson(File.ReadAllText(Directory.GetFiles(_folder.In("runs"), "summary.json", SearchOption.AllDirectories).Single()))!;
        Assert.InRange(summary.CellsNotAsTold!.Value, 1, 1000);
        Assert.Equal(summary.PredictedSeconds, summary.JobSeconds!.Value, 0.02);
    }

    [Fact]
    public async Task A_run_that_was_stopped_is_gone_on_with_in_its_own_folder()
    {
        Assert.Equal(4, (await Run(await _folder.KiteJob(), "--faults", "estop-at=20")).ExitCode);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        var ran = await InProcess.Run("run", "--resume", folder, "--fast", "--in-doubt", "redo");
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("led back", ran.Output);
        Assert.Equal(folder, Assert.Single(Directory.GetDirectories(_folder.In("runs"))));
        Assert.Contains("\"Complete\"", File.ReadAllText(Path.Combine(folder, "summary.json")));
        await InProcess.Run("show", await _folder.KiteJob(), "--pictures", _folder.In("whole"));
        Assert.Equal(File.ReadAllBytes(_folder.In("whole/layer-000.png")), File.ReadAllBytes(Path.Combine(folder, "pictures", "layer-000.png")));
        (await InProcess.Run("run", "--resume", folder, "--fast")).AssertRefused("complete");
    }

    [Fact]
    public async Task What_cannot_be_gone_on_with_is_refused()
    {
        Assert.Equal(4, (await Run(await _folder.KiteJob(), "--faults", "estop-at=18")).ExitCode);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        (await InProcess.Run("run", "--resume", folder, "--fast")).AssertRefused("work in doubt");
        (await InProcess.Run("run", "--resume", _folder.Path)).AssertRefused("job.job");
        File.AppendAllText(Path.Combine(folder, "machine.toml"), "# another line\n");
        (await InProcess.Run("run", "--resume", folder, "--fast")).AssertRefused("byte 16");
        (await InProcess.Run("run", "--resume", folder, await _folder.KiteJob())).AssertMisused("JOB: found beside --resume");
        (await InProcess.Run("run", "--resume", folder, "--machine", _folder.Plotter)).AssertMisused("--machine: found beside --resume");
        (await InProcess.Run("run", "--resume", folder, "--in-doubt", "maybe")).AssertMisused("--in-doubt: found maybe");
        (await InProcess.Run("run")).AssertMisused("JOB: found nothing");
    }

    [Fact]
    public async Task A_head_that_would_come_down_on_what_was_built_is_not_led_back()
    {
        var image = _folder.Write("image", Convert.FromHexString("680F3F" + "000000")); // a patch over the corner (0, 15), where the endstops are
        Assert.Equal(4, (await InProcess.Run("run", image, "--raw", "--machine", _folder.Gantry, "--fast", "--runs", _folder.In("runs"),
            "--faults", "estop-at=40")).ExitCode);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        (await InProcess.Run("run", "--resume", folder, "--fast", "--in-doubt", "redo")).AssertRefused("where the head comes down");
    }

    [Fact]
    public async Task Runs_that_cannot_be_written_are_refused_and_nothing_is_started()
    {
        var job = await _folder.KiteJob();
        (await InProcess.Run("run", job, "--machine", _folder.Plotter, "--fast", "--runs", job)).AssertRefused("--runs");
    }

    [Fact]
    public async Task A_job_for_another_machine_is_not_run() =>
        (await InProcess.Run("run", await _folder.KiteJob(), "--machine", _folder.Gantry, "--fast", "--runs", _folder.In("runs"))).AssertRefused("byte 16");

    [Fact]
    public async Task The_demo_is_complete()
    {
        var ran = await InProcess.Run("demo", "--runs", _folder.In("runs"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.All(new[] { "1. Plan", "2. Run", "Complete: " }, word => Assert.Contains(word, ran.Output));
    }

    private Task<Ran> Run(string job, params string[] more) =>
        InProcess.Run(["run", job, "--machine", _folder.Plotter, "--fast", "--runs", _folder.In("runs"), .. more]);
}

namespace Bridge.Cli.Tests;

public sealed class PlanTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_job_takes_the_place_of_a_job_and_of_nothing_that_was_made_by_hand()
    {
        var shape = _folder.Write("arrow.txt", "..A\nAAA\nB.A\n");
        var other = _folder.Write("other.txt", "AAA\n");
        (await InProcess.Run("plan", shape, "--machine", _folder.Plotter, "--out", other)).AssertRefused("a file that is no job");
        Assert.Equal("AAA\n", File.ReadAllText(other));
        foreach (var target in new[] { _folder.In("arrow.job"), _folder.In("arrow.job"), _folder.Write("empty", "") })
            Assert.Equal(0, (await InProcess.Run("plan", shape, "--machine", _folder.Plotter, "--out", target)).ExitCode);
    }

    [Fact]
    public async Task A_plan_tells_its_cost_and_writes_the_job()
    {
        var shape = _folder.Write("arrow.txt", "..A\nAAA\nB.A\n");
        var ran = await InProcess.Run("plan", shape, "--machine", _folder.Plotter, "--out", _folder.In("arrow.job"), "--image", _folder.In("arrow.bin"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.All(new[] { "arrow.txt", "records", "of 256 bytes", "5 by head a, 1 by head b, on 1 layer\n", "predicted", "Proved" },
            word => Assert.Contains(word, ran.Output));
        Assert.Equal(["arrow.bin", "arrow.job", "arrow.txt"], _folder.Names);
    }

    [Fact]
    public async Task A_plan_without_out_writes_nothing_and_says_so()
    {
        var ran = await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter);
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("Nothing was written", ran.Output);
        Assert.Empty(_folder.Names);
    }

    [Fact]
    public async Task A_shape_that_does_not_fit_is_refused_with_what_would_help_and_the_old_job_is_kept()
    {
        byte[] old = [0xB7, .. "JOB\r\n\u001a\n and more"u8];
        var job = _folder.Write("old.job", old);
        var ran = await InProcess.Run(
            "plan", WorkFolder.Example("shapes", "thicket.txt"), "--machine", _folder.Gantry, "--out", job, "--image", _folder.In("image"));
        ran.AssertRefused("up to 256 bytes");
        Assert.Contains("\n  - ", ran.Error);
        Assert.Equal(old, File.ReadAllBytes(job));
        Assert.Equal(["old.job"], _folder.Names);
    }

    [Fact]
    public async Task The_old_job_is_kept_when_the_image_cannot_be_written()
    {
        var job = _folder.Write("old.job", "old");
        var ran = await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--out", job, "--image", _folder.In(new string('n', 300)));
        ran.AssertRefused("nnn");
        Assert.Equal("old", File.ReadAllText(job));
        Assert.Equal(["old.job"], _folder.Names);
    }

    [Fact]
    public async Task No_file_that_is_read_is_written_over()
    {
        var shape = _folder.Write("dot.txt", "A");
        var machine = _folder.Quick(0);
        (await InProcess.Run("plan", shape, "--machine", machine, "--out", _folder.In("./dot.txt"))).AssertRefused("a file that is read");
        (await InProcess.Run("plan", shape, "--machine", machine, "--image", machine)).AssertRefused("a file that is read");
        (await InProcess.Run("plan", shape, "--machine", machine, "--out", _folder.In("x"), "--image", _folder.In("x"))).AssertRefused("already");
        Assert.Equal("A", File.ReadAllText(shape));
    }

    [Fact]
    public async Task A_folder_is_no_file_to_write()
    {
        (await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--out", _folder.Path)).AssertRefused("a folder");
        (await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--out", _folder.In("new/"))).AssertRefused("a folder");
        (await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--out", _folder.In("no/x.job"))).AssertRefused("no such folder");
    }

    [Theory]
    [InlineData("[bold]kite[bold].csv")]
    [InlineData("Höhe 日本.csv")]
    [InlineData("a b 'c' \"d\".csv")]
    [InlineData("[.csv")]
    public async Task Any_name_will_do(string name)
    {
        var shape = _folder.Write(name, "A,B");
        var ran = await InProcess.Run("plan", shape, "--machine", _folder.Plotter, "--out", shape + ".job");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains(name, ran.Output);
        Assert.Equal(0, (await InProcess.Run("check", shape + ".job", "--machine", _folder.Plotter, "--shape", shape)).ExitCode);
    }

    [Fact]
    public async Task The_threshold_decides_what_of_a_picture_is_worked()
    {
        string[] plan = ["plan", WorkFolder.Example("shapes", "heron.png"), "--machine", WorkFolder.Example("machines", "wide-plotter.toml"), "--threshold"];
        var (none, some) = (await InProcess.Run([.. plan, "0"]), await InProcess.Run([.. plan, "100"]));
        Assert.Equal(0, some.ExitCode);
        Assert.DoesNotContain(" 0 by head a", some.Output);
        Assert.True(none.ExitCode != 0 || none.Output.Contains(" 0 by head a"), none.Output);
    }
}

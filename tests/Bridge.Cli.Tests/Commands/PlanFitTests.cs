namespace Bridge.Cli.Tests;

public sealed class PlanFitTests : IDisposable
{
    private const string Dots = "A.A.\n....\nA.A.\n....\n";

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task The_least_change_is_taken_shown_and_proved()
    {
        var (shape, machine) = (_folder.Write("dots.txt", Dots), Small(9));
        var ran = await InProcess.Run("plan", shape, "--machine", machine, "--fit", "smooth", "--fit-cells", "2",
            "--out", _folder.In("dots.job"), "--fit-shape", _folder.In("fewer.txt"), "--fit-pictures", _folder.In("pictures"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Changed: smoothed: 1 cell left out.", ran.Output);
        Assert.Contains("Proved: every cell of the changed shape", ran.Output);
        Assert.Matches(@"\n  A\.A\.   [A-]\.[A-]\.\n", ran.Output);
        Assert.NotEqual(File.ReadAllBytes(_folder.In("pictures/layer-000-before.png")), File.ReadAllBytes(_folder.In("pictures/layer-000-after.png")));
        Assert.Equal(0, (await InProcess.Run("check", _folder.In("dots.job"), "--machine", machine, "--shape", _folder.In("fewer.txt"))).ExitCode);
        var before = await InProcess.Run("check", _folder.In("dots.job"), "--machine", machine, "--shape", shape);
        Assert.Equal(1, before.ExitCode);
        Assert.Contains("1 problem", before.Output);
    }

    [Fact]
    public async Task What_fits_is_not_changed()
    {
        var ran = await InProcess.Run("plan", _folder.Write("dots.txt", Dots), "--machine", Small(12), "--fit", "--out", _folder.In("dots.job"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Nothing was changed.", ran.Output);
        Assert.Contains("Proved: every cell of the shape", ran.Output);
    }

    [Fact]
    public async Task Where_nothing_fits_the_nearest_is_told_and_nothing_is_written()
    {
        var ran = await InProcess.Run("plan", _folder.Write("dots.txt", Dots), "--machine", Small(6), "--fit", "turn,smooth", "--fit-cells", "1",
            "--out", _folder.In("dots.job"));
        ran.AssertRefused("is 3 bytes too long: smoothed: 1 cell left out");
        Assert.False(File.Exists(_folder.In("dots.job")));
    }

    [Fact]
    public async Task A_job_that_does_not_fit_is_told_by_its_features()
    {
        var ran = await InProcess.Run("plan", _folder.Write("dots.txt", Dots), "--machine", Small(6));
        ran.AssertRefused("A store of at least 12 bytes");
        Assert.Matches(@"single cells +a +4 +12\n", ran.Output);
    }

    [Theory]
    [InlineData("--fit: found 'dance'; allowed: turn, lay,", "--fit", "turn,dance")]
    [InlineData("--fit: found ''; allowed: turn, lay,", "--fit", "")]
    [InlineData("--fit-cells: found -1; allowed: 0 to", "--fit", "turn", "--fit-cells", "-1")]
    [InlineData("--fit-cells: found many; allowed: 0 to", "--fit", "turn", "--fit-cells", "many")]
    [InlineData("--fit-cells: found no --fit", "--fit-cells", "3")]
    [InlineData("--fit-shape: found no --fit", "--fit-shape", "x.txt")]
    public async Task Limits_that_make_no_sense_are_refused(string words, params string[] options) =>
        (await InProcess.Run(["plan", _folder.Kite, "--machine", _folder.Plotter, .. options])).AssertMisused(words);

    [Fact]
    public async Task A_folder_of_pictures_that_cannot_be_made_is_refused()
    {
        var (shape, file) = (_folder.Write("dots.txt", Dots), _folder.Write("file", ""));
        string[] plan = ["plan", shape, "--machine", Small(9), "--fit", "smooth", "--fit-cells", "2"];
        (await InProcess.Run([.. plan, "--fit-pictures", file])).AssertRefused("--fit-pictures");
        (await InProcess.Run([.. plan, "--fit-shape", shape])).AssertRefused("a file that is read");
    }

    [LinuxFact]
    public async Task An_interrupt_gives_what_was_found_so_far()
    {
        using var plan = BridgeProcess.Start(_folder.Path, "plan", WorkFolder.Example("shapes", "heron.png"), "--dither",
            "--machine", WorkFolder.Example("machines", "wide-plotter.toml"), "--fit", "smooth,turn", "--seconds", "600");
        await plan.Says("as it is");
        plan.Signal("INT");
        var ran = await plan.End();
        Assert.Equal(1, ran.ExitCode);
        Assert.Contains("Ended early: the best", ran.Error);
        Assert.Contains("bytes too long", ran.Error);
    }

    private string Small(int storeBytes) => _folder.Write("small.toml",
        File.ReadAllText(_folder.Quick(0)).Replace("store_bytes = 256", $"store_bytes = {storeBytes}", StringComparison.Ordinal));
}

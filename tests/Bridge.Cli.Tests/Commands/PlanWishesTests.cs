using System.Text.RegularExpressions;
using Bridge.Jobs;

namespace Bridge.Cli.Tests;

public sealed partial class PlanWishesTests : IDisposable
{
    private const string Arm = "A.....\n---\nAAAAAA\n";

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task What_would_fall_is_supported_by_head_b_and_the_job_is_proved_against_the_shape()
    {
        var shape = _folder.Write("arm.txt", Arm);
        var ran = await InProcess.Run("plan", shape, "--machine", _folder.Gantry, "--out", _folder.In("arm.job"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Support: ", ran.Output);
        Assert.Contains("Proved: every cell of the shape and its support is worked", ran.Output);
        Assert.DoesNotContain("Caution", ran.Output);
        var check = await InProcess.Run("check", _folder.In("arm.job"), "--machine", _folder.Gantry, "--shape", shape);
        Assert.Equal((0, ""), (check.ExitCode, check.Error));
        var added = SupportAdded().Match(ran.Output).Groups[1].Value;
        Assert.Contains($"Proved against the machine and the shape with the support that a plan adds, {added} of head b.", check.Output);
        Assert.DoesNotContain("Caution", check.Output);
    }

    [Fact]
    public async Task Without_support_what_would_fall_is_refused()
    {
        var shape = _folder.Write("arm.txt", Arm);
        (await InProcess.Run("plan", shape, "--machine", _folder.Gantry, "--no-support")).AssertRefused("4 cells with nothing below them");
        var held = _folder.Write("held.txt", "ABBBBB\n---\nAAAAAA\n");
        Assert.Equal(0, (await InProcess.Run("plan", held, "--machine", _folder.Gantry, "--no-support")).ExitCode);
    }

    [Fact]
    public async Task A_shape_that_stands_on_its_support_alone_is_told_to()
    {
        var lifted = _folder.Write("lifted.txt", "....\n---\nAAAA\n");
        Assert.Contains("stands on it alone", (await InProcess.Run("plan", lifted, "--machine", _folder.Gantry)).Output);
        var arm = _folder.Write("arm.txt", Arm);
        Assert.DoesNotContain("stands on it alone", (await InProcess.Run("plan", arm, "--machine", _folder.Gantry)).Output);
    }

    [Fact]
    public async Task A_cell_of_head_b_that_is_no_support_is_a_problem_still()
    {
        var arm = _folder.Write("arm.txt", Arm);
        var other = _folder.Write("other.txt", "AB....\n---\nAA....\n");
        Assert.Equal(0, (await InProcess.Run("plan", other, "--machine", _folder.Gantry, "--out", _folder.In("other.job"))).ExitCode);
        var check = await InProcess.Run("check", _folder.In("other.job"), "--machine", _folder.Gantry, "--shape", arm);
        Assert.Equal(1, check.ExitCode);
        Assert.Contains("found worked by head b; allowed: not worked", check.Output);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_pen_passes_no_cell_twice_where_that_is_not_wanted(bool isWanted)
    {
        var plus = _folder.Write("plus.txt", ".A.\nAAA\n.A.\n");
        string[] plan = ["plan", plus, "--machine", _folder.Plotter, "--out", _folder.In("plus.job")];
        Assert.Equal(0, (await InProcess.Run(isWanted ? plan : [.. plan, "--no-overprint"])).ExitCode);
        var job = JobFile.Read(_folder.In("plus.job"));
        var (interpreter, worked) = (new Interpreter(job.Image, job.Grid), 0);
        while (interpreter.MoveNext())
            worked++;
        Assert.Equal(isWanted ? 6 : 5, worked);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("86401")]
    [InlineData("soon")]
    public async Task Seconds_out_of_range_are_refused(string seconds) =>
        (await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--seconds", seconds)).AssertMisused("1 to 86400");

    [Fact]
    public async Task With_a_time_to_spend_the_best_plan_of_it_is_given_and_each_better_one_told()
    {
        var ran = await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--seconds", "1", "--out", _folder.In("kite.job"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Matches(@" s: \d+ records, at most \d+ above the fewest, \d+\.\d s of work\n", ran.Output);
        Assert.Contains("gap", ran.Output);
    }

    [LinuxFact]
    public async Task An_interrupt_takes_the_best_plan_so_far()
    {
        var wide = WorkFolder.Example("machines", "wide-plotter.toml");
        using var plan = BridgeProcess.Start(_folder.Path, "plan", WorkFolder.Example("shapes", "heron.png"), "--machine", wide,
            "--seconds", "600", "--out", "heron.job");
        await plan.Says("above the fewest");
        plan.Signal("INT");
        var ran = await plan.End();
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("the best plan so far", ran.Error);
        Assert.Contains("Proved", ran.Output);
        Assert.True(File.Exists(_folder.In("heron.job")));
    }

    [GeneratedRegex(@"Support: (\d+ cells?) of head b added")]
    private static partial Regex SupportAdded();
}

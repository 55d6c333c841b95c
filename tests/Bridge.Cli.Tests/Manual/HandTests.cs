namespace Bridge.Cli.Tests;

/// <summary>The machine by hand, on the mock device.</summary>
public sealed class HandTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task References_are_told_with_how_far_the_count_was_off()
    {
        var ran = await InProcess.Run("reference", "--machine", _folder.Gantry, "--times", "2");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Caution: ", ran.Output);
        Assert.Contains("Referenced, 1 of 2: where it stood before was not known.", ran.Output);
        Assert.Contains("Referenced, 2 of 2: X off by 0 steps (0 mm), Y off by 0 steps (0 mm), Z off by 0 steps (0 mm).", ran.Output);
    }

    [Fact]
    public async Task The_machine_goes_to_places_in_cells_and_in_mm()
    {
        var ran = await InProcess.Run("move", "--machine", _folder.Gantry, "--to", "3,4", "60mm,8mm,6mm", "0,15,15");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("At cell (3, 4), layer 0.", ran.Output);
        Assert.Contains("At cell (15, 2), layer 3.", ran.Output);
        Assert.Contains("At cell (0, 15), layer 15.", ran.Output);
    }

    [Fact]
    public async Task A_run_by_hand_only_goes_up_and_says_so()
    {
        var ran = await InProcess.Run("move", "--machine", _folder.Gantry, "--to", "3,4,2", "3,4,1");
        Assert.Equal(5, ran.ExitCode);
        Assert.Contains("a run only goes up", ran.Error);
    }

    [Theory]
    [InlineData("16,0", "16,0")]
    [InlineData("-1,0", "-1,0")]
    [InlineData("1", "1")]
    [InlineData("1,2,3,4", "1,2,3,4")]
    [InlineData("1,2,1", "1,2,1")]
    [InlineData("1.5,2", "1.5,2")]
    [InlineData("61mm,5mm", "61 mm lies between two cells")]
    [InlineData("1e9mm,5mm", "1e9mm,5mm")]
    [InlineData("60,35mm", "60,35mm")]
    [InlineData("5,5cm", "5,5cm")]
    public async Task A_place_that_is_not_on_the_grid_is_refused_and_nothing_moves(string place, string word)
    {
        var ran = await InProcess.Run("move", "--machine", _folder.Plotter, "--to", place);
        ran.AssertRefused(word);
        Assert.Empty(ran.Output);
    }

    [Fact]
    public async Task Without_a_terminal_and_without_a_place_nothing_moves()
    {
        var ran = await InProcess.Run("move", "--machine", _folder.Plotter);
        ran.AssertRefused("--to");
    }

    [Theory]
    [InlineData("move")]
    [InlineData("reference")]
    [InlineData("heads")]
    public async Task A_board_that_nobody_watches_is_not_moved(string command)
    {
        var ran = await InProcess.Run(command, "--machine", _folder.Plotter, "--device", "/dev/none");
        ran.AssertRefused("nobody at a terminal");
    }

    [Fact]
    public async Task Each_head_is_tried_as_often_as_is_asked()
    {
        var ran = await InProcess.Run("heads", "--machine", _folder.Plotter, "--at", "3,4", "--times", "2");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Equal(2, ran.Output.Split("Head a at (3, 4), layer 0: lowered and lifted.").Length - 1);
        Assert.Equal(2, ran.Output.Split("Head b at (3, 4), layer 0: lowered and lifted.").Length - 1);
    }

    [Fact]
    public async Task A_head_that_the_machine_lacks_is_refused()
    {
        var ran = await InProcess.Run("heads", "--machine", _folder.Quick(0.01), "--head", "b");
        ran.AssertRefused("--head");
    }

    [Fact]
    public async Task The_inputs_are_told_and_nothing_moves()
    {
        var ran = await InProcess.Run("inputs", "--machine", _folder.Gantry, "--once");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Equal(["e-stop        closed", "endstop X     free", "endstop Y     free", "endstop Z     free", "start button  up"],
            ran.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Trim()));
    }

    [Fact]
    public async Task A_pen_is_held_down_for_a_time_and_lifted()
    {
        var ran = await InProcess.Run("heads", "--machine", _folder.Plotter, "--at", "7,7", "--hold", "20");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        foreach (var head in "ab")
        {
            Assert.Contains($"Head {head} at (7, 7), layer 0: down, for 20 s at most.", ran.Output);
            Assert.Contains($"Head {head} at (7, 7), layer 0: up.", ran.Output);
        }
    }

    [Theory]
    [InlineData("0")]
    [InlineData("121")]
    [InlineData("-5")]
    [InlineData("long")]
    public async Task A_time_that_a_pen_may_not_be_held_for_is_refused(string seconds)
    {
        var ran = await InProcess.Run("heads", "--machine", _folder.Plotter, "--hold", seconds);
        Assert.NotEqual(0, ran.ExitCode);
        Assert.Contains("1 to 120", ran.Error);
        Assert.Empty(ran.Output);
    }

    [Fact]
    public async Task A_head_that_makes_dots_is_not_held_down()
    {
        var ran = await InProcess.Run("heads", "--machine", _folder.Gantry, "--hold", "5");
        ran.AssertRefused("head a, which makes dots");
    }

    [Fact]
    public async Task The_pattern_to_measure_on_is_a_job_that_runs()
    {
        var ran = await InProcess.Run("calibrate", "pattern", "--machine", _folder.Plotter, "--out", _folder.In("pattern.job"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("--side-x 75 --side-y 75", ran.Output);
        Assert.Contains("at x = 4 goes over from head a to b", ran.Output);
        var run = await InProcess.Run("run", _folder.In("pattern.job"), "--machine", _folder.Plotter, "--fast", "--runs", _folder.In("runs"));
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
    }

    [Fact]
    public async Task A_machine_too_small_for_the_pattern_is_told_so_and_nothing_is_written()
    {
        var small = _folder.Write("small.toml", File.ReadAllText(_folder.Quick(0.01)).Replace("cells = 4", "cells = 3", StringComparison.Ordinal));
        var ran = await InProcess.Run("calibrate", "pattern", "--machine", small, "--out", _folder.In("pattern.job"));
        ran.AssertRefused("at least 4 along X and along Y");
        Assert.False(File.Exists(_folder.In("pattern.job")));
    }
}

namespace Bridge.Cli.Tests;

public sealed class ExplainTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_job_is_shown_with_its_times_where_a_machine_is_given_and_without_them_else()
    {
        var job = await _folder.KiteJob();
        var ran = await InProcess.Run("explain", job, "--machine", _folder.Plotter);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("record 0, byte 0: ", ran.Output);
        Assert.Contains("verb  head  heading  rise", ran.Output);
        Assert.Contains(" s, begins at ", ran.Output);
        Assert.DoesNotContain("begins at", (await InProcess.Run("explain", job)).Output);
    }

    [Theory]
    [InlineData("it.html", "<!DOCTYPE html>")]
    [InlineData("it.md", "# kite.job")]
    [InlineData("it.TXT", "kite.job")]
    public async Task The_name_of_the_file_says_its_form(string name, string start)
    {
        var ran = await InProcess.Run("explain", await _folder.KiteJob(), "--out", _folder.In(name));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.StartsWith(start, await File.ReadAllTextAsync(_folder.In(name)));
    }

    [Fact]
    public async Task Another_form_is_misuse_and_nothing_is_written()
    {
        (await InProcess.Run("explain", await _folder.KiteJob(), "--out", _folder.In("it.pdf"))).AssertMisused(".html");
        Assert.DoesNotContain("it.pdf", _folder.Names);
    }

    [Fact]
    public async Task A_machine_of_another_grid_is_refused_and_one_with_other_values_named()
    {
        var job = await _folder.KiteJob();
        (await InProcess.Run("explain", job, "--machine", _folder.Gantry)).AssertRefused("16 x 16 x 16");
        var slower = _folder.Write("slower.toml", (await File.ReadAllTextAsync(_folder.Plotter)).Replace("top_speed_mm_s = 60", "top_speed_mm_s = 30"));
        var ran = await InProcess.Run("explain", job, "--machine", slower);
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("Caution: the job was planned with another machine file", ran.Output);
    }

    [Fact]
    public async Task A_damaged_job_is_refused_and_one_that_breaks_off_is_explained_with_its_problem()
    {
        var bytes = await File.ReadAllBytesAsync(await _folder.KiteJob());
        bytes[60] ^= 1;
        (await InProcess.Run("explain", _folder.Write("damaged.job", bytes))).AssertRefused("CRC-32");
        var image = _folder.Write("image", Convert.FromHexString("401204" + "E00000"));
        var ran = await InProcess.Run("explain", image, "--raw", "--machine", _folder.Plotter);
        Assert.Equal(1, ran.ExitCode);
        Assert.Contains("Problem: record 1", ran.Output);
    }

    [Theory]
    [InlineData("rows-only.toml")]
    [InlineData("relative-lines.toml")]
    [InlineData("square-fills.toml")]
    public async Task The_records_of_a_layout_are_explained_and_work_what_the_shape_has(string name)
    {
        var (layout, image) = (WorkFolder.Example("layouts", name), _folder.In("kite.bin"));
        await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--layout", layout, "--image", image);
        var own = await InProcess.Run("explain", await _folder.KiteJob());
        var ran = await InProcess.Run("explain", image, "--layout", layout);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        var worked = own.Output.Split('\n').Single(line => line.Contains("worked:"));
        Assert.Contains(worked, ran.Output);
        Assert.Contains("record 0, byte 0: ", ran.Output);
        Assert.DoesNotContain("the job never comes to it", ran.Output);
        var timed = await InProcess.Run("explain", image, "--layout", layout, "--machine", _folder.Plotter, "--out", _folder.In("kite.html"));
        Assert.Equal((0, ""), (timed.ExitCode, timed.Error));
        Assert.Contains(" s, begins at ", File.ReadAllText(_folder.In("kite.html")));
        Assert.Contains(worked.Trim(), File.ReadAllText(_folder.In("kite.html")));
        await InProcess.Run("explain", image, "--layout", layout, "--out", _folder.In("kite.md"));
        Assert.Contains(worked.Trim(), File.ReadAllText(_folder.In("kite.md")));
    }

    [Fact]
    public async Task Repeated_records_of_a_layout_say_how_often_they_are_done_and_one_of_no_verb_stops_the_job()
    {
        var layout = WorkFolder.Example("layouts", "built-in-4.toml");
        string[] explain = ["explain", "--layout", layout];
        var ran = await InProcess.Run([.. explain, _folder.Write("it.bin", Convert.FromHexString("411204" + "401304" + "A00101" + "000000"))]);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("row: work 5 cells along +X, the first at (1, 3), with head a", ran.Output);
        Assert.Contains("from (5, 2) on layer 1, head a to (5, 3) on layer 1, head a", ran.Output);
        Assert.Contains("done 3 times, 15 cells in all; where it begins and ends is of the first time; 5 before it", ran.Output);
        var broken = await InProcess.Run([.. explain, _folder.Write("it.bin", Convert.FromHexString("411204" + "E00000" + "401304"))]);
        Assert.Equal(1, broken.ExitCode);
        Assert.Contains("none: the bits are no verb's", broken.Output);
        Assert.Contains("Problem: record 1 (byte 3): found the bits", broken.Output);
        Assert.Contains("the job never comes to it", broken.Output);
        (await InProcess.Run([.. explain, await _folder.KiteJob()])).AssertRefused("found a job file; allowed: the plain bytes of a store beside --layout");
    }
}

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
}

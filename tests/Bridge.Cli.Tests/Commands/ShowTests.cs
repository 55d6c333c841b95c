namespace Bridge.Cli.Tests;

public sealed class ShowTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Each_record_is_one_line_of_bytes_bits_and_words()
    {
        // The examples of JOB-FORMAT.md, section 2; the grid has two layers.
        var image = _folder.Write("image", Convert.FromHexString("401204" + "7BA331" + "000000"));
        var ran = await InProcess.Run("show", image, "--raw", "--machine", _folder.Gantry);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        var lines = ran.Output.Split('\n');
        Assert.Single(lines, line => line.Contains("40 12 04") && line.Contains("010 0 000 0") && line.Contains("5 cells from (1, 2)"));
        Assert.Single(lines, line => line.Contains("7B A3 31") && line.Contains("011 1 101 1") && line.Contains("(10, 3)"));
        Assert.Single(lines, line => line.Contains("00 00 00") && line.Contains("end"));
        Assert.Contains("  .AAAAA..........", lines);
        Assert.Equal(2, lines.Count(line => line == "  ..........BBBB.."));
    }

    [Fact]
    public async Task Each_layer_becomes_a_picture()
    {
        var ran = await InProcess.Run("show", await _folder.KiteJob(), "--pictures", _folder.In("new/pictures"));
        Assert.Equal(0, ran.ExitCode);
        Assert.Contains("1 picture:", ran.Output);
        var picture = Assert.Single(Directory.GetFiles(_folder.In("new/pictures")));
        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], File.ReadAllBytes(picture)[..4]); // PNG specification, 5.2
    }

    [Fact]
    public async Task A_file_is_no_folder_for_pictures()
    {
        var job = await _folder.KiteJob();
        var ran = await InProcess.Run("show", job, "--pictures", job);
        ran.AssertRefused("--pictures");
    }

    [Fact]
    public async Task A_job_that_breaks_off_is_shown_with_its_problem()
    {
        var image = _folder.Write("image", Convert.FromHexString("401204" + "40F00F" + "E00000"));
        var ran = await InProcess.Run("show", image, "--raw", "--machine", _folder.Plotter);
        Assert.Equal(1, ran.ExitCode);
        Assert.Contains("Problem: record 1", ran.Output);
        Assert.Contains("E0 00 00", ran.Output);
    }

    [Fact]
    public async Task Random_bytes_are_shown_or_refused_and_never_a_mistake_of_the_program()
    {
        var random = new Random(7);
        for (var round = 0; round < 200; round++)
        {
            var bytes = new byte[3 * random.Next(1, 12)];
            random.NextBytes(bytes);
            var image = _folder.Write("image", bytes);
            foreach (var command in new[] { "show", "check" })
            {
                var ran = await InProcess.Run(command, image, "--raw", "--machine", _folder.Gantry);
                Assert.True(ran.ExitCode is 0 or 1, $"{Convert.ToHexString(bytes)}: {ran.Error}");
            }
        }
    }
}

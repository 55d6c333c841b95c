namespace Bridge.Cli.Tests;

public sealed class DecodingTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string, int, string, string> GoldenJobs()
    {
        var jobs = new TheoryData<string, int, string, string>();
        foreach (var job in Vectors.Of("job/jobs.txt").Where(fields => fields[4] == "complete"))
            jobs.Add(job[0], int.Parse(job[1]), job[3], job[5]);
        return jobs;
    }

    [Theory]
    [MemberData(nameof(GoldenJobs))]
    public void The_decoder_reads_golden_bytes(string name, int axisBits, string image, string cells)
    {
        var decoded = JobDecoder.Cells(axisBits, Convert.FromHexString(image)).Select(cell => $"{cell.Head}:{cell.X},{cell.Y},{cell.Layer}");
        Assert.True(cells == string.Join(' ', decoded), name);
    }

    [Theory]
    [InlineData("lighthouse.txt", "desktop-gantry.toml", 4)]
    [InlineData("kite.csv", "cardboard-plotter.toml", 4)]
    [InlineData("kite.csv", "desktop-gantry.toml", 4)]
    [InlineData("kite.csv", "twelve.toml", 12)]
    [InlineData("lighthouse.txt", "largest.toml", 12)]
    [InlineData("thicket.txt", "roomy.toml", 4)]
    public async Task The_image_that_is_written_works_the_shape_cell_by_cell(string shape, string machine, int axisBits)
    {
        var gantry = File.ReadAllText(_folder.Gantry);
        _folder.Write("roomy.toml", gantry.Replace("store_bytes = 256", "store_bytes = 4096"));
        _folder.Write("twelve.toml", gantry.Replace("store_bytes = 256", "store_bytes = 4096").Replace("axis_bits = 4", "axis_bits = 12"));
        _folder.Write("largest.toml", File.ReadAllText(_folder.In("twelve.toml"))
            .Replace("cells = 16\n", "cells = 4096\n").Replace("top_speed_mm_s = 10\n", "top_speed_mm_s = 20\n")
            .Replace("reference_speed_mm_s = 15", "reference_speed_mm_s = 120").Replace("reference_speed_mm_s = 2", "reference_speed_mm_s = 20")
            .Replace("reference_seconds = 60", "reference_seconds = 600"));
        var path = File.Exists(_folder.In(machine)) ? _folder.In(machine) : WorkFolder.Example("machines", machine);
        var ran = await InProcess.Run(
            "plan", WorkFolder.Example("shapes", shape), "--machine", path, "--image", _folder.In("image"), "--out", _folder.In("job"));
        Assert.True(ran.ExitCode == 0, ran.Error);

        var image = await File.ReadAllBytesAsync(_folder.In("image"));
        var worked = JobDecoder.Cells(axisBits, image);
        AssertSame(WantedBy(shape), machine == "cardboard-plotter.toml" ? [.. worked.Distinct()] : worked); // a plotter may overprint
        Assert.Equal(image, (await File.ReadAllBytesAsync(_folder.In("job")))[52..^4]); // JOB-FORMAT.md, section 4
    }

    [Fact]
    public async Task The_picture_s_image_works_the_cells_that_check_counts()
    {
        var (heron, wide) = (WorkFolder.Example("shapes", "heron.png"), WorkFolder.Example("machines", "wide-plotter.toml"));
        var ran = await InProcess.Run("plan", heron, "--machine", wide, "--image", _folder.In("image"));
        Assert.True(ran.ExitCode == 0, ran.Error);
        var cells = JobDecoder.Cells(8, await File.ReadAllBytesAsync(_folder.In("image")));
        Assert.All(cells, cell => Assert.True(cell is { Head: 'a', X: >= 0 and < 256, Y: >= 0 and < 256, Layer: 0 }));
        var check = await InProcess.Run("check", _folder.In("image"), "--raw", "--machine", wide, "--shape", heron);
        Assert.Contains($"{cells.Count} by head a, 0 by head b", check.Output);
        Assert.Equal(0, check.ExitCode);
    }

    private static void AssertSame(List<(char Head, int X, int Y, int Layer)> wanted, List<(char Head, int X, int Y, int Layer)> worked)
    {
        Assert.NotEmpty(wanted);
        Assert.Equal(wanted.Order(), worked.Order());
    }

    // The rules of examples/shapes/README.md, once more and by other means than the program's.
    private static List<(char Head, int X, int Y, int Layer)> WantedBy(string shape)
    {
        var lines = File.ReadAllLines(WorkFolder.Example("shapes", shape)).Where(line => !line.StartsWith('#')).ToList();
        var layers = string.Join('\n', lines).Split("\n---\n").Select(layer => layer.Split('\n', StringSplitOptions.RemoveEmptyEntries)).ToList();
        return (from layer in layers.Index()
                from line in layer.Item.Reverse().Index()
                from cell in (shape.EndsWith(".csv") ? Marks(line.Item) : line.Item).Index()
                where cell.Item is 'A' or 'B'
                select (char.ToLowerInvariant(cell.Item), cell.Index, line.Index, layer.Index)).ToList();
    }

    private static string Marks(string commaSeparated) =>
        string.Concat(commaSeparated.Split(',').Select(cell => cell.Trim('"')).Select(cell => cell.Length == 0 ? "." : cell));
}

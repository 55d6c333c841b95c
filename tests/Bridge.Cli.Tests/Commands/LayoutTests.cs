namespace Bridge.Cli.Tests;

public sealed class LayoutTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("rows-only.toml")]
    [InlineData("relative-lines.toml")]
    [InlineData("square-fills.toml")]
    [InlineData("built-in-4.toml")]
    public async Task A_shape_planned_in_a_layout_is_proved_and_checked_again_from_its_bytes(string name)
    {
        var (layout, image) = (WorkFolder.Example("layouts", name), _folder.In("kite.bin"));
        var planned = await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--layout", layout, "--image", image);
        Assert.Equal((0, ""), (planned.ExitCode, planned.Error));
        Assert.All(new[] { "built-in layout", "times as many bytes", "Proved: the bytes, read back" }, word => Assert.Contains(word, planned.Output));
        var again = await InProcess.Run("check", image, "--layout", layout, "--machine", _folder.Plotter, "--shape", _folder.Kite);
        Assert.Equal((0, true), (again.ExitCode, again.Output.Contains("Proved against the machine and the shape.")));
        var damaged = File.ReadAllBytes(image);
        damaged[^1] ^= 0xFF;
        damaged[1] ^= 0x7E;
        Assert.Equal(1, (await InProcess.Run("check", _folder.Write("bad.bin", damaged), "--layout", layout, "--machine", _folder.Plotter, "--shape",
            _folder.Kite)).ExitCode);
    }

    [Fact]
    public async Task The_built_in_layout_gives_the_bytes_of_a_plan_without_one()
    {
        string[] plan = ["plan", _folder.Kite, "--machine", _folder.Plotter, "--image"];
        await InProcess.Run([.. plan, _folder.In("own.bin")]);
        await InProcess.Run([.. plan, _folder.In("layout.bin"), "--layout", WorkFolder.Example("layouts", "built-in-4.toml")]);
        Assert.Equal(File.ReadAllBytes(_folder.In("own.bin")), File.ReadAllBytes(_folder.In("layout.bin")));
    }

    [Fact]
    public async Task A_layout_that_lacks_something_is_refused_with_the_first_thing_missing_and_nothing_is_written()
    {
        var layout = _folder.Write("one-head.toml",
            File.ReadAllText(WorkFolder.Example("layouts", "rows-only.toml")).Replace("[verbs.head]\nwhen = { verb = 3 }\nhead = \"head\"", ""));
        var ran = await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--layout", layout, "--image", _folder.In("kite.bin"));
        ran.AssertRefused("no way to take head b");
        Assert.Equal(["one-head.toml"], _folder.Names);
    }

    [Fact]
    public async Task An_image_that_is_larger_than_the_store_is_refused_and_not_written()
    {
        var ran = await InProcess.Run("plan", WorkFolder.Example("shapes", "thicket.txt"), "--machine", _folder.Gantry,
            "--layout", WorkFolder.Example("layouts", "square-fills.toml"), "--image", _folder.In("thicket.bin"));
        ran.AssertRefused("up to 256 bytes");
        Assert.Empty(_folder.Names);
    }

    [Fact]
    public async Task A_job_file_or_a_fit_makes_no_sense_with_a_layout()
    {
        string[] plan = ["plan", _folder.Kite, "--machine", _folder.Plotter, "--layout", WorkFolder.Example("layouts", "rows-only.toml")];
        (await InProcess.Run([.. plan, "--out", _folder.In("kite.job")])).AssertMisused("--layout: found --out or --fit beside it");
        (await InProcess.Run([.. plan, "--fit"])).AssertMisused("--layout: found --out or --fit beside it");
    }

    [Fact]
    public async Task Logic_is_told_and_written_and_too_wide_an_opcode_is_refused()
    {
        var ran = await InProcess.Run("logic", "--layout", WorkFolder.Example("layouts", "rows-only.toml"),
            "--table", _folder.In("t.csv"), "--verilog", _folder.In("c.v"), "--blif", _folder.In("c.blif"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("  is_row = verb1' verb0\n", ran.Output);
        Assert.Contains("flip-flops", ran.Output);
        Assert.Contains("  fill      they are those of a rectangle, row by row, back and forth\n", ran.Output);
        Assert.Contains("  is_again  the record is one of the verb again\n", ran.Output);
        Assert.Equal(["c.blif", "c.v", "t.csv"], _folder.Names);
        Assert.Equal(65, File.ReadAllLines(_folder.In("t.csv")).Length);
        Assert.Contains("endmodule", File.ReadAllText(_folder.In("c.v")));
        var wide = _folder.Write("wide.toml", "format = 1\nname = \"W\"\nrecord_bytes = 2\npositions_x = 1\npositions_y = 1\nmoves = \"absolute\"\n"
            + "[fields]\nop = { place = 0, width = 13 }\n[verbs.end]\nwhen = { op = 0 }\n");
        (await InProcess.Run("logic", "--layout", wide)).AssertRefused("1 to 12 bits");
        (await InProcess.Run("logic")).AssertMisused("--layout");
    }

    [Fact]
    public void The_page_of_layouts_says_of_every_control_line_what_the_program_says()
    {
        var page = File.ReadAllText(WorkFolder.Example("layouts", "README.md"));
        foreach (var line in Bridge.Layouts.ControlLines.Of(Bridge.Layouts.LayoutFile.Read(WorkFolder.Example("layouts", "built-in-4.toml"))).Lines)
            Assert.Contains(line.Name.StartsWith("is_", StringComparison.Ordinal) ? "| `is_NAME` | the record is one of the verb NAME |"
                : $"| `{line.Name}` | {line.Means} |", page);
    }

    [Fact]
    public async Task An_image_of_a_layout_given_as_a_job_is_told_where_it_belongs()
    {
        var image = _folder.In("kite.bin");
        await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--layout", WorkFolder.Example("layouts", "rows-only.toml"), "--image", image);
        foreach (var command in new[] { "run", "check" })
        {
            (await InProcess.Run(command, image, "--machine", _folder.Plotter)).AssertRefused("Those of a layout only check, explain and sheet can read");
            (await InProcess.Run(command, image, "--machine", _folder.Plotter, "--raw")).AssertRefused("of another width or of a layout");
        }
        (await InProcess.Run("run", _folder.Write("empty.job", ""), "--machine", _folder.Plotter)).AssertRefused("found an empty file");
        (await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--size", "10"))
            .AssertRefused("a shape drawn cell by cell, and a size asked for");
    }
}

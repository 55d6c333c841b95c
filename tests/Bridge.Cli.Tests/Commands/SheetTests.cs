namespace Bridge.Cli.Tests;

public sealed class SheetTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("kite.pdf", "%PDF-")]
    [InlineData("kite.svg", "<svg ")]
    [InlineData("kite.html", "<!DOCTYPE html>")]
    public async Task A_job_goes_onto_paper_as_the_name_of_the_file_says(string name, string start)
    {
        var ran = await InProcess.Run("sheet", await _folder.KiteJob(), "--out", _folder.In(name));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("on 1 page", ran.Output);
        Assert.StartsWith(start, File.ReadAllText(_folder.In(name)));
    }

    [Fact]
    public async Task Another_ending_is_refused_and_a_raw_image_needs_its_machine()
    {
        var job = await _folder.KiteJob();
        (await InProcess.Run("sheet", job, "--out", _folder.In("kite.doc"))).AssertRefused(".pdf, .svg or .html");
        (await InProcess.Run("sheet", job, "--raw", "--out", _folder.In("kite.pdf"))).AssertMisused("--raw: found no --machine or --layout");
        Assert.Equal(["kite.job"], _folder.Names);
    }

    [Fact]
    public async Task What_is_typed_in_from_a_sheet_is_proved_and_a_wrong_row_is_named()
    {
        var job = await _folder.KiteJob();
        await InProcess.Run("sheet", job, "--out", _folder.In("kite.svg"));
        var rows = Rows(File.ReadAllText(_folder.In("kite.svg")));
        var typed = _folder.Write("typed.txt", string.Join('\n', rows));
        string[] check = ["check", "--machine", _folder.Plotter, "--shape", _folder.Kite, "--image"];
        Assert.Equal((0, ""), ((await InProcess.Run([.. check, typed])).ExitCode, (await InProcess.Run([.. check, typed, job])).Error));
        rows[4] = rows[4].Replace(": 46", ": 64"); // neighbours exchanged
        (await InProcess.Run([.. check, _folder.Write("typed.txt", string.Join('\n', rows))])).AssertRefused("line 5, row 5 (address 000C)");
        var cut = await InProcess.Run([.. check, _folder.Write("typed.txt", string.Join('\n', rows[..4]))]);
        Assert.Equal((1, true), (cut.ExitCode, cut.Output.Contains("no end record")));
        (await InProcess.Run([.. check, _folder.In("typed.txt"), job])).AssertRefused("row 5 (address 000C): found nothing");
        (await InProcess.Run("check", "--machine", _folder.Plotter)).AssertMisused("JOB: found nothing");
    }

    [Fact]
    public async Task A_sheet_of_a_layout_is_typed_in_by_its_layout()
    {
        var (layout, image) = (WorkFolder.Example("layouts", "relative-lines.toml"), _folder.In("kite.bin"));
        await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--layout", layout, "--image", image);
        Assert.Equal(0, (await InProcess.Run("sheet", image, "--layout", layout, "--out", _folder.In("kite.svg"))).ExitCode);
        Assert.Contains(">falls_x</text>", File.ReadAllText(_folder.In("kite.svg")));
        Assert.Contains("place 0 is the lowest bit of the first byte", File.ReadAllText(_folder.In("kite.svg")));
        var typed = _folder.Write("typed.txt", string.Join('\n', Rows(File.ReadAllText(_folder.In("kite.svg")))));
        var ran = await InProcess.Run("check", "--image", typed, "--layout", layout, "--machine", _folder.Plotter, "--shape", _folder.Kite);
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
    }

    [Fact]
    public async Task A_lesson_is_written_and_its_answers_are_marked()
    {
        var ran = await InProcess.Run("lesson", "--seed", "7", "--level", "1", "--out", _folder.In("lesson.html"));
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("10 exercises", ran.Output);
        string[] lesson = ["lesson", "--seed", "7", "--level", "1"];
        var marked = await InProcess.Run([.. lesson, "--check", _folder.Write("answers.txt", "3: 99\n")]);
        Assert.Equal(1, marked.ExitCode);
        Assert.Contains("   3: wrong: write a number from 1 to 24\n", marked.Output);
        Assert.Contains("0 of 10 right.", marked.Output);
        (await InProcess.Run([.. lesson, "--check", _folder.Write("answers.txt", "11: 1\n")])).AssertRefused("1 to 10");
        (await InProcess.Run(lesson)).AssertMisused("--out, --check: found neither or both");
        (await InProcess.Run("lesson", "--level", "4", "--out", _folder.In("x.pdf"))).AssertMisused("1 to 3");
    }

    // Address, bytes and check digit of each row that a drawing shows.
    private static List<string> Rows(string svg)
    {
        var pages = System.Xml.Linq.XDocument.Parse(svg).Descendants().Where(element => element.Name.LocalName == "g");
        var texts = pages.SelectMany(page => page.Elements().Where(element => element.Name.LocalName == "text")
            .GroupBy(element => element.Attribute("y")!.Value).Select(line => line.Select(element => element.Value).ToList()));
        return [.. texts.Where(line => line[0].Length == 4 && line[0].All(char.IsAsciiHexDigit) && line.Count > 8)
            .Select(line => $"{line[0]}: {line[^2]} {line[^1]}")];
    }
}

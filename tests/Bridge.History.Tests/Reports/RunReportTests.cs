using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Bridge.Runs;
using UglyToad.PdfPig;

namespace Bridge.History.Tests;

public sealed class RunReportTests : IDisposable
{
    private readonly PastRuns _runs = new();

    public void Dispose() => _runs.Dispose();

    [Fact]
    public void A_report_holds_all_that_is_known_as_a_page_and_as_a_pdf()
    {
        var run = PastRun.Read(_runs.Run("skip=x:5:-12").Path);
        var page = RunReport.Of(run);
        string[] all = ["Complete.", "Cardboard plotter", "mock, seed 1", "2026-05-04T12:00:00", run.Begin.JobDigest!, "looking for its zero", "predicted",
            "measured", "Every cell was worked as planned", "look at the belt", "round trips", run.Verification.Seal!, "summary.json"];
        var html = HtmlPage.Of(page);
        Assert.All(all, words => Assert.Contains(words, html));
        var pdf = TextOf(PdfPage.Of(page));
        Assert.All(all, words => Assert.Contains(words.Replace(" ", "", StringComparison.Ordinal), pdf));
    }

    [Fact]
    public void A_page_needs_no_other_file_and_is_well_formed()
    {
        var html = HtmlPage.Of(RunReport.Of(PastRun.Read(_runs.Run().Path)));
        Assert.DoesNotMatch("(?:src|href)=\"(?!data:)", html);
        Assert.DoesNotContain("<script", html);
        var body = Regex.Replace(html[html.IndexOf("<body>", StringComparison.Ordinal)..].Replace("</html>", "", StringComparison.Ordinal),
            "<(img [^>]*)>", "<$1/>");
        Assert.NotEmpty(XElement.Parse(body.Replace("&nbsp;", " ", StringComparison.Ordinal)).Descendants("img"));
    }

    [Fact]
    public void A_stop_is_told_with_what_to_do_and_every_cell_that_was_left_is_marked()
    {
        var run = PastRun.Read(_runs.Run("estop-at=20").Path);
        var html = HtmlPage.Of(RunReport.Of(run));
        Assert.Contains("Aborted because the e-stop is pressed", html);
        Assert.Contains($"{PastRuns.CellsLeft(done: run.Summary!.WorkedByA + run.Summary.WorkedByB)} cells not as planned", html);
    }

    [Theory]
    [InlineData(InDoubt.Redo, "may have been worked twice, by decision of the person")]
    [InlineData(InDoubt.Skip, "may not have been worked: left as it is, by decision of the person")]
    public void What_was_in_doubt_and_what_was_decided_of_it_is_told_and_played_back(InDoubt decision, string words)
    {
        var folder = _runs.Run("estop-at=18");
        Assert.DoesNotContain("by decision", HtmlPage.Of(RunReport.Of(PastRun.Read(folder.Path))));
        _runs.GoOn(folder, decision);
        var run = PastRun.Read(folder.Path);
        var html = HtmlPage.Of(RunReport.Of(run));
        Assert.Contains(words, html);
        Assert.Contains("the last part of the run alone", html);
        Assert.DoesNotContain("as the device told.", html.Replace("cell not as planned, as the device told", "", StringComparison.Ordinal));
        var replay = new Replay(run);
        replay.GoTo(double.MaxValue);
        Assert.Equal(Assert.Single(run.Doubts), Assert.Single(replay.Doubts));
        Assert.Equal(replay.Length, run.Summary!.Seconds, 0.01);
        replay.GoTo(0);
        Assert.Empty(replay.Doubts);

        var events = DataOut.Of(run);
        string[] named = ["doubt_record", "doubt_layer", "doubt_cells", "doubt_records_after", "doubt_decision"];
        Assert.Equal(run.Doubts.Select(doubt => (IEnumerable<object?>)[doubt.Record, doubt.Layer, doubt.Cells, doubt.RecordsAfter, $"{decision}"]),
            events.Rows.Select(row => named.Select(name => row[events.Names.ToList().IndexOf(name)])).Where(row => row.First() is not null));
        Assert.Equal(1, Assert.Single(RunLine.ReadAll(_runs.Folder).Runs).Doubts);
        var other = RunComparison.Of(run, PastRun.Read(_runs.Run().Path)).Differences.Single(difference => difference.What == "in doubt when gone on with");
        Assert.Contains(words, other.One);
        Assert.Equal("nothing", other.Other);
    }

    [Fact]
    public void What_a_file_holds_cannot_become_part_of_the_page()
    {
        var page = new Page("<b>", "a & b", [new Section("\"", new Block.Facts(("<i>", "<script>alert(1)</script>")))]);
        var html = HtmlPage.Of(page);
        Assert.DoesNotContain("<script>", html);
        Assert.Contains("&lt;script&gt;", html);
        Assert.NotEmpty(PdfPage.Of(page with { Title = "Plötter \u0007 日本" }));
    }

    [Fact]
    public void A_record_that_was_changed_says_so_first()
    {
        var folder = _runs.Run();
        var text = File.ReadAllText(folder.JournalFile);
        File.WriteAllText(folder.JournalFile, text.Replace("\"state\":\"Execute\"", "\"state\":\"Held\"", StringComparison.Ordinal));
        var html = HtmlPage.Of(RunReport.Of(PastRun.Read(folder.Path)));
        Assert.Contains("This record is not whole", html);
        Assert.Contains("does not continue the chain", html);
    }

    [Fact]
    public void Events_go_out_as_csv_and_as_json_lines_with_the_same_rows()
    {
        var data = DataOut.Of(PastRun.Read(_runs.Run().Path));
        var csv = data.ToCsv().Split("\r\n");
        Assert.StartsWith("entry,clock_s,kind,state", csv[0]);
        Assert.Equal(data.Rows.Count + 2, csv.Length);
        Assert.Equal(data.Rows.Count, data.ToJsonLines().Split('\n').Length - 1);
    }

    [Fact]
    public void A_value_with_a_comma_or_a_quote_stands_in_quotes() => // RFC 4180, section 2
        Assert.Equal("x,y\r\n\"a,b\",\"say \"\"c\"\"\"\r\n", new DataOut(["x", "y"], [["a,b", "say \"c\""]]).ToCsv());

    private static string TextOf(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        var text = new StringBuilder();
        foreach (var page in document.GetPages())
            text.Append(page.Text);
        return text.ToString().Replace(" ", "", StringComparison.Ordinal);
    }
}

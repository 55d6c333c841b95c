using System.Xml;
using System.Xml.Linq;
using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Teaching.Tests;

public class ExplanationTests
{
    private static readonly Action<JobExplanation, TextWriter>[] Forms = [TextExplanation.Write, MarkdownExplanation.Write, HtmlExplanation.Write];

    [Fact]
    public void The_bits_of_a_record_stand_under_the_names_of_their_fields()
    {
        // The second example of JOB-FORMAT.md: 7B A3 31.
        var explained = JobExplanation.Of("it", TestJobs.RowAndPatch, TestJobs.Gantry).Records[1];
        Assert.Equal(
            ["verb 011 patch", "head 1 b", "heading 101 5", "rise 1 up", "x 1010 10", "y 0011 3", "p 0011 3", "q 0001 1"],
            explained.Fields.Select(field => $"{field.Name} {field.Bits} {field.Says}"));
        Assert.Equal(
            ["verb   head  heading  rise  x     y     p     q", "011    1     101      1     1010  0011  0011  0001"],
            RecordField.Table(explained.Fields).Take(2));
    }

    [Fact]
    public void Bits_of_the_fields_are_the_bits_of_the_bytes_for_every_width()
    {
        var random = new Random(5);
        foreach (var width in RecordWidth.All)
            for (var round = 0; round < 200; round++)
            {
                var bytes = new byte[width.Bytes];
                random.NextBytes(bytes);
                Assert.Equal(string.Concat(bytes.Select(octet => octet.ToString("b8", null))),
                    string.Concat(RecordField.Of(width, RecordCodec.Read(width, bytes)).Select(field => field.Bits)));
            }
    }

    [Fact]
    public void Each_record_begins_where_and_when_the_one_before_ended()
    {
        var explained = JobExplanation.Of("it", TestJobs.RowAndPatch, TestJobs.Gantry);
        var (row, patch) = (explained.Records[0], explained.Records[1]);
        Assert.Equal(new Position(new Cell(5, 2), 0, Head.A), row.To);
        Assert.Equal(row.To, patch.From);
        Assert.Equal(new Position(new Cell(13, 3), 1, Head.B), patch.To); // columns down and up: four of them end at the corner's own y
        Assert.Equal(row.Seconds, patch.BeginsAt);
        Assert.Equal((5, 8), (row.Cells, patch.Cells));
    }

    [Fact]
    public void The_times_of_the_records_are_those_of_the_timetable()
    {
        foreach (var (job, machine) in new[] { (TestJobs.RowAndPatch, TestJobs.Gantry), (TestJobs.Repeating, TestJobs.Plotter) })
        {
            var explained = JobExplanation.Of("it", job, machine);
            var times = Timetable.Of(job.Image, machine);
            Assert.Equal(times.Seconds, explained.Seconds!.Value, 9);
            Assert.Equal(times.SecondsPerRecord, explained.Records.Select(record => record.Seconds!.Value), (one, other) => Math.Abs(one - other) < 1e-8);
            Assert.Equal(times.Cells, explained.Cells);
        }
    }

    [Fact]
    public void What_is_repeated_says_how_often()
    {
        var explained = JobExplanation.Of("it", TestJobs.Repeating, machine: null);
        Assert.Equal([1, 3, 3, 0, 1, 1, 0], explained.Records.Select(record => record.Times));
        Assert.Equal([3, 3, 6, 0, 0, 3, 0], explained.Records.Select(record => record.Cells));
        Assert.Equal([0, 3, 4, null, 12, 12, null], explained.Records.Select(record => record.CellsBefore)); // of the first time: a repeat comes later
        Assert.Null(explained.Records[1].Seconds);
        Assert.Contains("4 before it", Written(TextExplanation.Write, explained));
        Assert.Contains("done 3 times, 6 cells in all", Written(TextExplanation.Write, explained));
    }

    [Fact]
    public void Every_form_tells_every_record_and_what_it_means()
    {
        var explained = JobExplanation.Of("it", TestJobs.Repeating, TestJobs.Plotter);
        foreach (var form in Forms)
        {
            var written = System.Net.WebUtility.HtmlDecode(Written(form, explained).Replace("\\", "", StringComparison.Ordinal));
            Assert.All(explained.Records, record => Assert.Contains(record.Meaning, written));
            Assert.All(explained.Records, record => Assert.Contains($"byte {record.Index * 3}", written));
        }
    }

    [Fact]
    public void The_page_is_well_formed_and_needs_nothing_beside_it()
    {
        var page = Written(HtmlExplanation.Write, JobExplanation.Of("it", TestJobs.RowAndPatch, TestJobs.Gantry));
        using var reader = XmlReader.Create(new StringReader(page), new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore });
        var parsed = XDocument.Load(reader);
        Assert.Equal(3, parsed.Descendants("section").Count());
        Assert.Equal(2, parsed.Descendants("svg").Count());
        foreach (var foreign in new[] { "<script", "src=", "href=", "url(", "@import", "http" })
            Assert.DoesNotContain(foreign, page);
    }

    [Fact]
    public void A_name_is_no_markup()
    {
        var explained = JobExplanation.Of("<b>*it*</b>", TestJobs.RowAndPatch, null);
        Assert.DoesNotContain("<b>*", Written(HtmlExplanation.Write, explained));
        Assert.Contains(@"\<b\>\*it\*", Written(MarkdownExplanation.Write, explained));
    }

    [Fact]
    public void A_job_that_breaks_off_is_explained_up_to_there_and_beyond_it_in_words_alone()
    {
        var job = TestJobs.Of(TestJobs.Plotter, "401204" + "40F00F" + "400000" + "000000");
        foreach (var machine in new[] { null, TestJobs.Plotter })
        {
            var explained = JobExplanation.Of("it", job, machine);
            Assert.Equal((JobRule.OffGrid, 1), (explained.Fault!.Rule, explained.Fault.Index));
            Assert.Equal([1, 0, 0, 0], explained.Records.Select(record => record.Times));
            foreach (var form in Forms)
            {
                var written = Written(form, explained);
                Assert.Contains("the job never comes to it", written);
                Assert.Contains("Problem: record 1", written);
            }
        }
    }

    [Fact]
    public void A_long_job_is_explained_up_to_a_bound_and_its_totals_are_whole()
    {
        var records = Enumerable.Repeat(Record.Row(TestJobs.WidePlotter.Width, Head.A, new Cell(0, 0), 0, 2), JobExplanation.MostRecords + 5);
        var explained = JobExplanation.Of("it", TestJobs.Of(TestJobs.WidePlotter, [.. records, Record.End]), TestJobs.WidePlotter);
        Assert.Equal((JobExplanation.MostRecords, 6), (explained.Records.Count, explained.LeftOut));
        Assert.Equal(2 * (JobExplanation.MostRecords + 5), explained.Cells);
        Assert.Contains("6 more records left out", Written(MarkdownExplanation.Write, explained));
    }

    private static string Written(Action<JobExplanation, TextWriter> form, JobExplanation explanation)
    {
        using var text = new StringWriter();
        form(explanation, text);
        return text.ToString();
    }
}

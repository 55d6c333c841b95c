using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Bridge.Jobs;
using UglyToad.PdfPig;

namespace Bridge.Layouts.Tests;

public partial class ImageSheetTests
{
    [Theory]
    [InlineData(3, 100)]
    [InlineData(5, 39)]
    [InlineData(8, 3)]
    public void Every_row_that_a_PDF_shows_is_a_row_of_the_image_when_it_is_typed_in(int recordBytes, int rows)
    {
        var image = new byte[recordBytes * rows];
        new Random(rows).NextBytes(image);
        using var document = PdfDocument.Open(PageFile.Of("x.pdf", "job", new ImageSheet("job", Boxes(recordBytes), image).Pages()));
        Assert.Equal((rows + 37) / 38, document.NumberOfPages);
        var typed = new StringBuilder();
        foreach (var page in document.GetPages())
        {
            Assert.Contains($"page{page.Number}of{document.NumberOfPages}",
                string.Concat(page.Letters.Select(letter => letter.Value)).Replace(" ", "", StringComparison.Ordinal));
            foreach (var line in page.Letters.GroupBy(letter => Math.Round(letter.StartBaseLine.Y)).OrderByDescending(line => line.Key))
                if (Row().Match(string.Concat(line.OrderBy(letter => letter.StartBaseLine.X).Select(letter => letter.Value))
                    .Replace(" ", "", StringComparison.Ordinal)) is { Success: true } row)
                    typed.Append(row.Value.AsSpan(0, 4)).Append(": ").Append(row.Value.AsSpan(4, 8 * recordBytes)).Append(' ').Append(row.Value[^1])
                        .Append('\n');
        }
        Assert.Equal(image, TypedSheet.Parse(Encoding.UTF8.GetBytes(typed.ToString()), "typed", recordBytes));
    }

    [Fact]
    public void Nothing_lies_outside_the_paper_whatever_the_size_of_a_record() => Assert.All(Enumerable.Range(1, 8), recordBytes =>
    {
        foreach (var mark in new ImageSheet(new string('n', 200), Boxes(recordBytes), new byte[recordBytes * 40]).Pages().SelectMany(page => page.Marks))
            Assert.True(mark switch
            {
                Mark.Text text => text.X >= 10 && text.X + text.Words.Length * text.SizeMm * Page.LetterWidth <= 205 && text.Y < 287,
                Mark.Box box => box.X >= 10 && box.X + box.Width <= 200 && box.Y + box.Height < 287,
                Mark.Rule rule => rule.X2 <= 200 && rule.Y2 < 287,
                _ => false,
            }, $"{recordBytes}: {mark}");
    });

    [Fact]
    public void SVG_and_HTML_are_well_formed_and_hold_what_a_name_holds()
    {
        var pages = new ImageSheet("<kite> & \"co\"", Boxes(3), new byte[300]).Pages();
        var svg = XDocument.Parse(Encoding.UTF8.GetString(PageFile.Of("a.svg", "t", pages)));
        Assert.Contains(svg.Descendants(), element => element.Value == "<kite> & \"co\"");
        var html = XDocument.Parse(Encoding.UTF8.GetString(PageFile.Of("a.html", "<t>", pages))
            .Replace("<meta charset=\"utf-8\">", "", StringComparison.Ordinal));
        Assert.Equal(3, html.Descendants().Count(element => element.Name.LocalName == "svg"));
    }

    [Fact]
    public void Another_ending_or_no_record_is_refused()
    {
        Assert.Contains(".pdf, .svg or .html", Assert.Throws<RefusedException>(() => PageFile.Check("sheet.doc")).Message);
        Assert.Throws<RefusedException>(() => new ImageSheet("job", Boxes(3), new byte[2]).Pages());
        Assert.Throws<RefusedException>(() => new ImageSheet("job", Boxes(8), new byte[65_544]).Pages());
    }

    public static TheoryData<string, string, string> Orders => new()
    {
        { "built-in-4.toml", "0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23",
            "0 verb, 3 head, 4 heading, 7 rise, 8 x, 12 y, 16 p, 20 q" },
        { "relative-lines.toml", "7 6 5 4 3 2 1 0 15 14 13 12 11 10 9 8",
            "0 special, 1 work, 2 rise, 3 head, 4 falls_y, 5 move_y, 6 falls_x, 7 move_x, 8 cells" },
        { "across.toml", "7 6 5 4 3 2 1 0 15 14 13 12 11 10 9 8", "0 far, 3 op, 11 far" },
    };

    [Theory]
    [MemberData(nameof(Orders))]
    public void Above_the_boxes_of_each_page_of_a_PDF_stand_the_place_of_each_bit_and_the_name_of_each_field(string layout, string places, string names)
    {
        var boxes = SheetBoxes.Of(LayoutOf(layout));
        using var document = PdfDocument.Open(PageFile.Of("x.pdf", "job", new ImageSheet("job", boxes, new byte[80 * boxes.RecordBytes]).Pages()));
        Assert.Equal(3, document.NumberOfPages);
        Assert.All(document.GetPages().SelectMany(page => page.Letters), letter => Assert.True(letter.EndBaseLine.X < 200 / 25.4 * 72));
        foreach (var page in document.GetPages())
        {
            var lines = page.Letters.GroupBy(letter => Math.Round(letter.StartBaseLine.Y, 1)).OrderByDescending(line => line.Key)
                .Select(line => line.OrderBy(letter => letter.StartBaseLine.X).ToList()).ToList();
            var first = lines.FindIndex(line => Row().IsMatch(string.Concat(line.Select(letter => letter.Value)).Replace(" ", "", StringComparison.Ordinal)));
            var columns = lines[first].Where(letter => letter.Value != " ").Skip(4).Take(8 * boxes.RecordBytes).Select(Middle).ToList();
            var numbers = lines[first - 1].GroupBy(letter => NearestOf(columns, Middle(letter))).OrderBy(number => number.Key).ToList();
            Assert.Equal(Enumerable.Range(0, columns.Count), numbers.Select(number => number.Key));
            Assert.Equal(places, string.Join(' ', numbers.Select(number => string.Concat(number.Select(letter => letter.Value)))));
            Assert.Equal(names, string.Join(", ", lines[..(first - 1)].SelectMany(NamesOf).Select(name => (Box: NearestOf(columns, name.X), name.Name))
                .OrderBy(name => name.Box).Select(name => $"{name.Box} {name.Name}")));
        }
    }

    [Theory]
    [InlineData(".svg")]
    [InlineData(".html")]
    public void The_same_stands_in_SVG_and_HTML_and_how_places_are_counted(string ending)
    {
        foreach (var (layout, order) in new[] { ("built-in-4.toml", "highest"), ("relative-lines.toml", "lowest") })
        {
            var boxes = SheetBoxes.Of(LayoutOf(layout));
            var text = Encoding.UTF8.GetString(PageFile.Of("a" + ending, "t", new ImageSheet("job", boxes, new byte[40 * boxes.RecordBytes]).Pages()))
                .Replace("<meta charset=\"utf-8\">", "", StringComparison.Ordinal);
            var pages = XDocument.Parse(text).Descendants().Where(element => element.Name.LocalName == "g").ToList();
            Assert.Equal(2, pages.Count);
            foreach (var page in pages)
            {
                var words = page.Elements().Select(element => element.Value).ToList();
                Assert.Contains(words, line => line.Contains($"place 0 is the {order} bit of the first byte", StringComparison.Ordinal));
                Assert.Subset(words.ToHashSet(), boxes.All.Select(box => $"{box.Place}").Concat(boxes.All.Select(box => box.Field!)).ToHashSet());
            }
        }
    }

    [Fact]
    public void Bridge_s_own_records_have_the_boxes_of_the_layout_that_says_them() => Assert.All(new[] { (RecordWidth.Four, 4), (RecordWidth.Eight, 8) },
        pair => Assert.Equal(SheetBoxes.Of(LayoutFile.Read(Examples.PathOf("layouts", $"built-in-{pair.Item2}.toml"))).All, SheetBoxes.Of(pair.Item1).All));

    // Each bit a field of its own with a long name: no name is on another, or runs through the rule of one.
    [Fact]
    public void No_name_covers_another_however_many_fields_a_record_has() => Assert.All(Enumerable.Range(1, 8), recordBytes =>
    {
        var boxes = new SheetBoxes([.. Enumerable.Range(0, 8 * recordBytes).Select(bit => new SheetBox(bit, $"quite_a_long_name_{bit}"))], "");
        var marks = new ImageSheet("job", boxes, new byte[recordBytes * 38]).Pages().Single().Marks;
        var names = marks.OfType<Mark.Text>().Where(text => text.Words.StartsWith('q')).ToList();
        var rules = marks.OfType<Mark.Rule>().Where(rule => rule.X1 == rule.X2).ToList();
        Assert.Equal((8 * recordBytes, 8 * recordBytes), (names.Count, rules.Count));
        foreach (var name in names)
            Assert.DoesNotContain(rules, rule => rule.X1 > name.X && rule.X1 < name.X + name.Words.Length * name.SizeMm * Page.LetterWidth
                && rule.Y1 < name.Y);
        Assert.All(marks, mark => Assert.True(mark is not Mark.Box box || box.Y + box.Height < 287));
    });

    private static double Middle(UglyToad.PdfPig.Content.Letter letter) => (letter.StartBaseLine.X + letter.EndBaseLine.X) / 2;

    private static int NearestOf(List<double> columns, double x) => columns.IndexOf(columns.MinBy(column => Math.Abs(column - x)));

    // The words of a line in the size of the names, which are 2 mm.
    private static IEnumerable<(double X, string Name)> NamesOf(List<UglyToad.PdfPig.Content.Letter> line)
    {
        var word = new List<UglyToad.PdfPig.Content.Letter>();
        foreach (var letter in line.Where(letter => Math.Abs(letter.PointSize - 2 / 25.4 * 72) < 0.1))
        {
            if (word.Count > 0 && letter.StartBaseLine.X - word[^1].EndBaseLine.X > 0.5)
            {
                yield return (word[0].StartBaseLine.X, string.Concat(word.Select(part => part.Value)));
                word.Clear();
            }
            word.Add(letter);
        }
        if (word.Count > 0)
            yield return (word[0].StartBaseLine.X, string.Concat(word.Select(part => part.Value)));
    }

    // A field across two bytes whose bits do not stand side by side, and four bits of none.
    private static Layout LayoutOf(string name) => name == "across.toml"
        ? Layouts.Parse(Layouts.Top + "first_bit = \"low\"\n[fields]\nop = { place = 0, width = 5 }\nfar = { place = 5, width = 8 }\n[verbs.end]\n")
        : Examples.Layout(name);

    private static SheetBoxes Boxes(int recordBytes) =>
        new([.. Enumerable.Range(0, 8 * recordBytes).Select(bit => new SheetBox(bit, bit < 3 ? "op" : $"field_{bit / 8}"))], "from the left");

    [GeneratedRegex("^[0-9A-F]{4}[01]{8,64}[0-9A-F]+$")]
    private static partial Regex Row();
}

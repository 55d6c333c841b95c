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
        using var document = PdfDocument.Open(PageFile.Of("x.pdf", "job", new ImageSheet("job", recordBytes, image).Pages()));
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
        foreach (var mark in new ImageSheet(new string('n', 200), recordBytes, new byte[recordBytes * 40]).Pages().SelectMany(page => page.Marks))
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
        var pages = new ImageSheet("<kite> & \"co\"", 3, new byte[300]).Pages();
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
        Assert.Throws<RefusedException>(() => new ImageSheet("job", 3, new byte[2]).Pages());
        Assert.Throws<RefusedException>(() => new ImageSheet("job", 8, new byte[65_544]).Pages());
    }

    [GeneratedRegex("^[0-9A-F]{4}[01]{8,64}[0-9A-F]+$")]
    private static partial Regex Row();
}

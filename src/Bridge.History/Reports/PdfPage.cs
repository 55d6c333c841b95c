using SkiaSharp;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Fonts.Standard14Fonts;
using UglyToad.PdfPig.Writer;

namespace Bridge.History;

/// <summary>A page as a PDF on A4, in the fonts that every reader has.</summary>
public static class PdfPage
{
    /// <summary>The whole file. A letter that those fonts do not have becomes a question mark.</summary>
    public static byte[] Of(Page page)
    {
        using var document = new PdfDocumentBuilder();
        document.DocumentInformation.Title = page.Title;
        document.DocumentInformation.Producer = "Bridge";
        var sheet = new PdfSheet(document);
        sheet.Text(page.Title, 16, isBold: true);
        sheet.Text(page.Lead, 10.5);
        foreach (var section in page.Sections)
        {
            sheet.Heading(section.Title);
            foreach (var block in section.Blocks)
                Add(sheet, block);
        }

        return document.Build();
    }

    private static void Add(PdfSheet sheet, Block block)
    {
        switch (block)
        {
            case Block.Words words:
                sheet.Text(words.IsWarning ? $"! {words.Text}" : words.Text, 9.5, words.IsWarning);
                break;
            case Block.Facts facts:
                sheet.Rows([.. facts.Rows.Select(row => (IReadOnlyList<string>)[row.Name, row.Value])], numbers: 0);
                break;
            case Block.Table table:
                sheet.Rows([table.Heads, .. table.Rows], table.Heads.Count - table.TextColumns);
                break;
            case Block.Strip strip:
                sheet.Strip(strip);
                break;
            case Block.Pictures pictures:
                foreach (var pair in pictures.Each.Chunk(3))
                    sheet.Pictures(pair);
                break;
            case Block.Chart chart:
                sheet.Chart(chart);
                break;
        }
    }
}

/// <summary>Where the next thing comes on the sheets of a PDF.</summary>
internal sealed class PdfSheet(PdfDocumentBuilder document)
{
    private const double Margin = 48;
    private const double Width = 595 - 2 * Margin;
    private const double Top = 842 - Margin;
    private const int JpegQuality = 92;

    private readonly PdfDocumentBuilder.AddedFont _plain = document.AddStandard14Font(Standard14Font.Helvetica);
    private readonly PdfDocumentBuilder.AddedFont _bold = document.AddStandard14Font(Standard14Font.HelveticaBold);
    private PdfPageBuilder _page = document.AddPage(PageSize.A4);
    private double _y = Top;

    public void Heading(string text)
    {
        Room(60);
        _y -= 12;
        Text(text, 12, isBold: true);
        Color(Colors.Rule);
        _page.DrawLine(new PdfPoint(Margin, _y + 2), new PdfPoint(Margin + Width, _y + 2), 0.6);
        _y -= 4;
    }

    public void Text(string text, double size, bool isBold = false)
    {
        foreach (var line in Wrapped(Plain(text), size, Width, isBold))
        {
            Room(size * 1.4);
            _y -= size * 1.35;
            Put(line, size, Margin, isBold);
        }

        _y -= size * 0.3;
    }

    /// <summary>Columns as wide as what stands in them; the last takes what is left. Numbers stand to the right.</summary>
    public void Rows(IReadOnlyList<IReadOnlyList<string>> rows, int numbers)
    {
        const double Size = 8.5;
        const double Gap = 12;
        const double MostOfColumn = Width * 0.55;
        if (rows.Count == 0)
            return;
        var columns = rows[0].Count;
        var widths = Enumerable.Range(0, columns)
            .Select(column => Math.Min(MostOfColumn, rows.Take(200).Max(row => Measure(Plain(row[column]), Size))))
            .ToArray();
        widths[^1] = Math.Max(40, Width - widths.SkipLast(1).Sum() - Gap * (columns - 1));
        foreach (var row in rows)
        {
            var cells = row.Select((text, column) => Wrapped(Plain(text), Size, widths[column], false)).ToList();
            var lines = cells.Max(cell => cell.Count);
            Room(lines * Size * 1.3);
            for (var line = 0; line < lines; line++)
            {
                _y -= Size * 1.3;
                var x = Margin;
                for (var column = 0; column < columns; column++)
                {
                    if (line < cells[column].Count)
                        Put(cells[column][line], Size, column > 0 && column < numbers && columns > 2
                            ? x + widths[column] - Measure(cells[column][line], Size) - (column == columns - 1 ? widths[^1] - 50 : 0) : x);
                    x += widths[column] + Gap;
                }
            }
        }

        _y -= 4;
    }

    public void Strip(Block.Strip strip)
    {
        Room(40);
        var length = strip.Spans.Count == 0 ? 0 : strip.Spans[^1].Begins + strip.Spans[^1].Seconds;
        foreach (var span in strip.Spans.Where(_ => length > 0))
        {
            Color(Colors.Of(span.Tint));
            var height = HtmlPage.Height(span.Tint) * 0.8;
            _page.DrawRectangle(new PdfPoint(Margin + Width * span.Begins / length, _y - 4 - height),
                Math.Max(0.4, Width * span.Seconds / length), height, 0.1, true);
        }

        _y -= 34;
        Put("0 s", 8, Margin);
        var end = FormattableString.Invariant($"{length:0.0} s");
        Put(end, 8, Margin + Width - Measure(end, 8));
        _y -= 4;
    }

    public void Pictures(IReadOnlyList<(byte[] Png, string Caption)> each)
    {
        const double Gap = 10;
        var width = (Width - 2 * Gap) / 3;
        Room(width + 20);
        for (var index = 0; index < each.Count; index++)
        {
            var x = Margin + index * (width + Gap);
            using var bitmap = SKBitmap.Decode(each[index].Png);
            using var jpeg = bitmap.Encode(SKEncodedImageFormat.Jpeg, JpegQuality); // goes in as it is, where a PNG would be packed anew, slowly
            var scale = width / Math.Max(bitmap.Width, bitmap.Height);
            _page.AddJpeg(jpeg.ToArray(), new PdfRectangle(x, _y - bitmap.Height * scale, x + bitmap.Width * scale, _y));
        }

        _y -= width + 10;
        for (var index = 0; index < each.Count; index++)
            Put(Wrapped(Plain(each[index].Caption), 7.5, width, false)[0], 7.5, Margin + index * (width + Gap));
        _y -= 8;
    }

    public void Chart(Block.Chart chart)
    {
        const double Height = 80;
        const double Labels = 90;
        Text(chart.Title, 9);
        Room(Height + 16);
        var scale = new ChartScale(chart, Width - Labels, Height);
        PdfPoint At(double x, double y) => new(Margin + x, _y - y);
        foreach (var (name, value) in scale.Lines)
        {
            Color(name == "mean" ? Colors.Faint : Colors.Warning);
            _page.DrawLine(At(0, scale.Y(value)), At(Width - Labels, scale.Y(value)), 0.5);
            Put(FormattableString.Invariant($"{name} {value:0.##}"), 7.5, Margin + Width - Labels + 4, isBold: false, _y - scale.Y(value) - 2);
        }

        for (var index = 0; index < chart.Points.Count; index++)
        {
            var (x, y) = (scale.X(index), scale.Y(chart.Points[index]));
            Color(scale.IsBeyond(chart.Points[index]) ? Colors.Warning : Colors.Value);
            if (index > 0)
                _page.DrawLine(At(scale.X(index - 1), scale.Y(chart.Points[index - 1])), At(x, y), 0.8);
            if (scale.IsBeyond(chart.Points[index]))
                Cross(At(x, y));
            else
                _page.DrawRectangle(At(x - 1.5, y + 1.5), 3, 3, 0.1, true);
        }

        _y -= Height + 12;
    }

    private void Cross(PdfPoint at)
    {
        _page.DrawLine(new PdfPoint(at.X - 3, at.Y - 3), new PdfPoint(at.X + 3, at.Y + 3), 1.4);
        _page.DrawLine(new PdfPoint(at.X - 3, at.Y + 3), new PdfPoint(at.X + 3, at.Y - 3), 1.4);
    }

    private void Color(string color)
    {
        var (r, g, b) = Colors.Rgb(color);
        _page.SetStrokeColor(r, g, b);
        _page.SetTextAndFillColor(r, g, b);
    }

    private void Put(string text, double size, double x, bool isBold = false, double? y = null)
    {
        if (text.Length == 0)
            return;
        Color(Colors.Ink);
        _page.AddText(text, size, new PdfPoint(x, y ?? _y), isBold ? _bold : _plain);
    }

    private void Room(double height)
    {
        if (_y - height >= Margin)
            return;
        _page = document.AddPage(PageSize.A4);
        _y = Top;
    }

    private double Measure(string text, double size, bool isBold = false) =>
        text.Length == 0 ? 0 : _page.MeasureText(text, size, new PdfPoint(0, 0), isBold ? _bold : _plain)[^1].EndBaseLine.X;

    private List<string> Wrapped(string text, double size, double width, bool isBold)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split(' ').SelectMany(word => Pieces(word, size, width)))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && Measure(longer, size, isBold) > width)
            {
                lines.Add(line);
                line = word;
            }
            else
            {
                line = longer;
            }
        }

        lines.Add(line);
        return lines;
    }

    // A word that is wider than a line, such as a digest, is broken.
    private IEnumerable<string> Pieces(string word, double size, double width)
    {
        var most = Math.Max(4, (int)(width / (size * 0.6)));
        return word.Length <= most || Measure(word, size) <= width ? [word] : word.Chunk(most).Select(piece => new string(piece));
    }

    private static string Plain(string text) => string.Concat(text.Select(letter => letter is >= ' ' and <= '~' ? letter : '?'));
}

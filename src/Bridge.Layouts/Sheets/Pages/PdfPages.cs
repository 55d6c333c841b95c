using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Fonts.Standard14Fonts;
using UglyToad.PdfPig.Writer;

namespace Bridge.Layouts;

/// <summary>Pages as a PDF, in Courier, which every reader has.</summary>
internal static class PdfPages
{
    private const double PointsPerMm = 72 / 25.4;
    private const double RuleMm = 0.15;

    public static byte[] Of(string title, IReadOnlyList<Page> pages)
    {
        var document = new PdfDocumentBuilder();
        document.DocumentInformation.Title = title;
        document.DocumentInformation.Producer = "Bridge";
        var (plain, bold) = (document.AddStandard14Font(Standard14Font.Courier), document.AddStandard14Font(Standard14Font.CourierBold));
        foreach (var page in pages)
        {
            var paper = document.AddPage(PageSize.A4);
            foreach (var mark in page.Marks)
                Draw(paper, mark, plain, bold);
        }
        return document.Build();
    }

    private static void Draw(PdfPageBuilder paper, Mark mark, PdfDocumentBuilder.AddedFont plain, PdfDocumentBuilder.AddedFont bold)
    {
        switch (mark)
        {
            case Mark.Text text when text.Words.Length > 0:
                paper.SetTextAndFillColor(0, 0, 0);
                paper.AddText(Plain(text.Words), text.SizeMm * PointsPerMm, At(text.X, text.Y), text.IsBold ? bold : plain);
                break;
            case Mark.Box box:
                if (box.IsDark)
                    paper.SetTextAndFillColor(200, 200, 200);
                paper.DrawRectangle(At(box.X, box.Y + box.Height), box.Width * PointsPerMm, box.Height * PointsPerMm, RuleMm * PointsPerMm, box.IsDark);
                break;
            case Mark.Rule rule:
                paper.DrawLine(At(rule.X1, rule.Y1), At(rule.X2, rule.Y2), RuleMm * PointsPerMm);
                break;
        }
    }

    // PDF counts from the lower left corner.
    private static PdfPoint At(double x, double y) => new(x * PointsPerMm, (Page.HeightMm - y) * PointsPerMm);

    private static string Plain(string words) => string.Concat(words.Select(letter => letter is >= ' ' and <= '~' ? letter : '?'));
}

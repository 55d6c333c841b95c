using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>A drawing as a shape of one layer: lines one cell wide, areas where they hold the centre of a cell.</summary>
internal static class DrawingCells
{
    /// <summary>Draws it on cells, at the size, place and turn that the options give.</summary>
    /// <exception cref="RefusedException">It does not lie on the grid, works no cell, or takes too much work.</exception>
    public static Shape Of(Drawing drawing, string name, ShapeOptions options)
    {
        var page = new PageOnGrid(drawing, name, options);
        var shape = new ShapeBuilder(page.Left + page.Width, page.Bottom + page.Depth, layers: 1, name); // refuses what is too large
        var effort = new ReadingEffort(name);
        var sheet = new CellSheet(page.Width, page.Depth, effort);
        var toCells = page.ToCells();
        var lost = 0;
        foreach (var part in drawing.Parts)
            lost += Paint(sheet, part, toCells, options, effort) ? 0 : 1;
        if (sheet.IsEmpty)
            throw new RefusedException(name, $"a drawing that works no cell of {page.Width} x {page.Depth}", "one that works a cell or more",
                "Is it empty or all light? Give a larger size, or a higher threshold.");
        if (lost > 0)
            options.Caution?.Invoke($"{name}: {lost} {(lost == 1 ? "area is" : "areas are")} too small or thin to hold the centre of a cell, and left out.");
        sheet.CopyTo(shape, page.Left, page.Bottom);
        return shape.Build();
    }

    private static bool Paint(CellSheet sheet, Painted part, SKMatrix pageToCells, ShapeOptions options, ReadingEffort effort)
    {
        var toCells = SKMatrix.Concat(pageToCells, part.ToPage);
        var isSeen = part.Fill is not { } fill || part.Path.IsEmpty || FillArea(sheet, part.Path, toCells, fill, effort) || part.Stroke is not null;
        if (part.Stroke is not { } ink)
            return isSeen;
        if (!options.Wide)
        {
            using var path = Moved(part.Path, toCells);
            foreach (var line in Flattening.Of(path, effort))
                sheet.Draw(line, ink);
            return isSeen;
        }
        using var area = Outline(part.Path, part.Pen, toCells);
        return FillArea(sheet, area, toCells, ink, effort) && isSeen;
    }

    private static bool FillArea(CellSheet sheet, SKPath area, SKMatrix toCells, Ink ink, ReadingEffort effort)
    {
        using var path = Moved(area, toCells);
        var isEvenOdd = path.FillType is SKPathFillType.EvenOdd;
        return sheet.Fill([.. Flattening.Of(path, effort)], isEvenOdd, ink);
    }

    private static SKPath Moved(SKPath path, SKMatrix toCells)
    {
        using var builder = new SKPathBuilder();
        builder.FillType = path.FillType;
        builder.AddPath(path, in toCells, SKPathAddMode.Append);
        return builder.Detach();
    }

    private static SKPath Outline(SKPath path, Pen pen, SKMatrix toCells)
    {
        using var paint = new SKPaint
        {
            IsStroke = true,
            StrokeWidth = pen.Width,
            StrokeCap = pen.Cap,
            StrokeJoin = pen.Join,
            StrokeMiter = pen.Miter,
        };
        return paint.GetFillPath(path, toCells) ?? new SKPath();
    }
}

using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Runs;

/// <summary>A layer as a picture: the far edge on top, X to the right. Head a is a filled square, head b a ring, so that no colour stands alone.</summary>
public static class LayerPicture
{
    private const int MostPixels = 4096;
    private const int LeastForMarks = 6; // pixels of a cell that has room for rules and marks
    private static readonly SKColor Paper = new(0xFB, 0xFA, 0xF5);
    private static readonly SKColor Rule = new(0xD9, 0xD6, 0xCB);
    private static readonly SKColor StrongRule = new(0xA9, 0xA4, 0x94);
    private static readonly SKColor HeadA = new(0x1F, 0x4E, 0x79);
    private static readonly SKColor HeadB = new(0xC2, 0x6A, 0x1B);
    private static readonly SKColor Difference = new(0xA3, 0x20, 0x20);

    /// <summary>Draws one layer as a PNG.</summary>
    /// <param name="worked">What was worked.</param>
    /// <param name="layer">The layer.</param>
    /// <param name="planned">What should have been: a cell that was not worked gets a cross, one worked otherwise a triangle. Null marks nothing.</param>
    /// <param name="mostPixels">How wide and high it is at most; a grid of more cells is drawn a pixel a cell.</param>
    public static byte[] Draw(WorkedCells worked, int layer, WorkedCells? planned = null, int mostPixels = MostPixels)
    {
        var grid = worked.Grid;
        var scale = Math.Clamp(mostPixels / Math.Max(grid.X, grid.Y), 1, grid.X <= 64 && grid.Y <= 64 ? 24 : 6);
        using var bitmap = new SKBitmap(grid.X * scale + 1, grid.Y * scale + 1);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(Paper);
            if (scale < LeastForMarks)
                DrawFlat(canvas, worked, layer, planned, scale);
            else
                DrawMarks(canvas, worked, layer, planned, scale);
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    /// <summary>Draws every layer on which anything was worked into a folder, as layer-000.png and so on; tells how many.</summary>
    public static int DrawAll(WorkedCells worked, string folder)
    {
        Directory.CreateDirectory(folder);
        var count = 0;
        foreach (var layer in worked.Layers)
        {
            File.WriteAllBytes(Path.Combine(folder, $"layer-{layer:000}.png"), Draw(worked, layer));
            count++;
        }

        return count;
    }

    // Neighbours of one colour are one rectangle: a large layer has tens of thousands of cells.
    private static void DrawFlat(SKCanvas canvas, WorkedCells worked, int layer, WorkedCells? planned, int scale)
    {
        using var paint = new SKPaint();
        var grid = worked.Grid;
        for (var y = 0; y < grid.Y; y++)
            for (int x = 0, end; x < grid.X; x = end)
            {
                var color = ColorAt(x, y);
                for (end = x + 1; end < grid.X && ColorAt(end, y) == color; end++)
                {
                }

                paint.Color = color;
                canvas.DrawRect(x * scale, (grid.Y - 1 - y) * scale, (end - x) * scale, scale, paint);
            }

        SKColor ColorAt(int x, int y)
        {
            var cell = new Cell(x, y);
            return planned is not null && !worked.IsSame(planned, cell, layer) ? Difference
                : worked.Has(cell, layer, Head.A) ? HeadA
                : worked.Has(cell, layer, Head.B) ? HeadB
                : Paper;
        }
    }

    private static void DrawMarks(SKCanvas canvas, WorkedCells worked, int layer, WorkedCells? planned, int scale)
    {
        using var paint = new SKPaint { IsAntialias = true };
        var grid = worked.Grid;
        DrawRules(canvas, grid, scale);
        for (var y = 0; y < grid.Y; y++)
            for (var x = 0; x < grid.X; x++)
            {
                var (cell, corner) = (new Cell(x, y), new SKPoint(x * scale, (grid.Y - 1 - y) * scale));
                if (worked.Has(cell, layer))
                    DrawCell(canvas, paint, (worked.Has(cell, layer, Head.A), worked.Has(cell, layer, Head.B)), corner, scale);
                if (planned is not null && !worked.IsSame(planned, cell, layer))
                    DrawDifference(canvas, isMissing: !worked.Has(cell, layer), corner, scale);
            }
    }

    private static void DrawRules(SKCanvas canvas, Grid grid, int scale)
    {
        using var paint = new SKPaint { StrokeWidth = 1 };
        for (var x = 0; x <= grid.X; x++)
        {
            paint.Color = x % 8 == 0 ? StrongRule : Rule;
            canvas.DrawLine(x * scale + 0.5f, 0, x * scale + 0.5f, grid.Y * scale + 1, paint);
        }

        for (var y = 0; y <= grid.Y; y++)
        {
            paint.Color = y % 8 == 0 ? StrongRule : Rule;
            var at = (grid.Y - y) * scale + 0.5f;
            canvas.DrawLine(0, at, grid.X * scale + 1, at, paint);
        }
    }

    private static void DrawCell(SKCanvas canvas, SKPaint paint, (bool A, bool B) worked, SKPoint corner, int scale)
    {
        (paint.Color, paint.Style) = (worked.A ? HeadA : HeadB, SKPaintStyle.Fill);
        if (worked.A)
            canvas.DrawRect(corner.X + 1.5f, corner.Y + 1.5f, scale - 2, scale - 2, paint);
        if (!worked.B)
            return;
        (paint.Color, paint.Style, paint.StrokeWidth) = (HeadB, SKPaintStyle.Stroke, scale / 6f);
        canvas.DrawCircle(corner.X + scale / 2f + 0.5f, corner.Y + scale / 2f + 0.5f, scale * 0.33f, paint);
    }

    private static void DrawDifference(SKCanvas canvas, bool isMissing, SKPoint corner, int scale)
    {
        using var paint = new SKPaint { IsAntialias = true, Color = Difference, StrokeWidth = Math.Max(1, scale / 8f) };
        var (left, top, right, bottom) = (corner.X + 1, corner.Y + 1, corner.X + scale - 0.5f, corner.Y + scale - 0.5f);
        if (isMissing)
        {
            canvas.DrawLine(left, top, right, bottom, paint);
            canvas.DrawLine(left, bottom, right, top, paint);
        }
        else
        {
            using var triangle = new SKPathBuilder();
            triangle.MoveTo(left, bottom);
            triangle.LineTo(right, bottom);
            triangle.LineTo((left + right) / 2, top);
            triangle.Close();
            using var path = triangle.Detach();
            canvas.DrawPath(path, paint);
        }
    }
}

using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Runs.Tests;

public class LayerPictureTests
{
    [Fact]
    public void Each_cell_stands_where_it_was_worked_and_the_heads_differ_in_form()
    {
        var worked = new WorkedCells(new Grid(16, 8, 2));
        worked.Add(new Cell(0, 0), 1, Head.A);
        worked.Add(new Cell(15, 7), 1, Head.B);
        using var picture = SKBitmap.Decode(LayerPicture.Draw(worked, 1));
        var scale = (picture.Width - 1) / 16;
        Assert.Equal((16 * scale + 1, 8 * scale + 1), (picture.Width, picture.Height));

        // Cell (0, 0) is at the lower left and filled; cell (15, 7) at the upper right is a ring: its middle is paper.
        var paper = picture.GetPixel(8 * scale + scale / 2, 4 * scale + scale / 2);
        Assert.NotEqual(paper, picture.GetPixel(scale / 2, 7 * scale + scale / 2));
        Assert.Equal(paper, picture.GetPixel(15 * scale + scale / 2, scale / 2));
        Assert.NotEqual(paper, picture.GetPixel(15 * scale + scale / 2, scale / 2 - scale / 3));
    }

    [Fact]
    public void Where_a_cell_has_few_pixels_each_still_has_its_colour_and_a_difference_another()
    {
        var grid = new Grid(200, 200, 1);
        var (worked, planned) = (new WorkedCells(grid), new WorkedCells(grid));
        foreach (var cell in new[] { new Cell(0, 0), new Cell(1, 0), new Cell(2, 0), new Cell(199, 199) })
        {
            worked.Add(cell, 0, cell.X == 199 ? Head.B : Head.A);
            planned.Add(cell, 0, cell.X is 199 or 2 ? Head.B : Head.A);
        }

        using var picture = SKBitmap.Decode(LayerPicture.Draw(worked, 0, planned, mostPixels: 400));
        SKColor At(int x, int y) => picture.GetPixel(2 * x + 1, 2 * (199 - y) + 1);
        Assert.Equal(401, picture.Width);
        Assert.Equal(At(0, 0), At(1, 0));
        Assert.Equal(4, new[] { At(1, 0), At(2, 0), At(3, 0), At(199, 199) }.Distinct().Count()); // head a, a difference, paper, head b
        Assert.Equal(At(3, 0), At(100, 100));
    }

    [Fact]
    public void Only_layers_that_hold_something_are_drawn_and_a_wide_grid_keeps_within_bounds()
    {
        using var folder = new TemporaryFolder();
        var worked = new WorkedCells(new Grid(4096, 4, 9));
        worked.Add(new Cell(4095, 3), 7, Head.A);
        Assert.Equal(1, LayerPicture.DrawAll(worked, folder.In("pictures")));
        using var picture = SKBitmap.Decode(Assert.Single(Directory.GetFiles(folder.In("pictures"), "layer-007.png")));
        Assert.InRange(picture.Width, 4096, 4097);
    }
}

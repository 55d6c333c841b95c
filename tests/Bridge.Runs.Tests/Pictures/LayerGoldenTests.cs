using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Runs.Tests;

/// <summary>Pictures pixel by pixel: paper . rule : every eighth rule | head a # head b o difference x, and + for a mixture at an edge.</summary>
public class LayerGoldenTests
{
    private static readonly Grid Grid = new(3, 2, 1);

    private static readonly (SKColor Colour, char Sign)[] Signs =
    [
        (new SKColor(0xFB, 0xFA, 0xF5), '.'), (new SKColor(0xD9, 0xD6, 0xCB), ':'), (new SKColor(0xA9, 0xA4, 0x94), '|'),
        (new SKColor(0x1F, 0x4E, 0x79), '#'), (new SKColor(0xC2, 0x6A, 0x1B), 'o'), (new SKColor(0xA3, 0x20, 0x20), 'x'),
    ];

    [Fact]
    public void A_pixel_a_cell_shows_who_worked_it() => Assert.Equal("""
        #.o.
        .#..
        ....
        """, Text(Worked, null, 3));

    [Fact]
    public void A_pixel_a_cell_shows_every_difference() => Assert.Equal("""
        #.x.
        xx..
        ....
        """, Text(Worked, Planned, 3));

    [Fact]
    public void A_few_pixels_a_cell_have_neither_rules_nor_forms() => Assert.Equal("""
        ##..oo.
        ##..oo.
        ..##...
        ..##...
        .......
        """, Text(Worked, null, 6));

    [Fact]
    public void Cells_of_six_pixels_have_forms_between_rules() => Assert.Equal("""
        :::::::::::::::::::
        |:+++::.....:.+++.:
        |+###+:.....:++.++:
        |+###+:.....:+...+:
        |+###+:.....:++.++:
        |:+++::.....:.+++.:
        :::::::::::::::::::
        |.....::+++::.....:
        |.....:++#++:.....:
        |.....:+###+:.....:
        |.....:++#++:.....:
        |.....::+++::.....:
        |||||||||||||||||||
        """, Text(Worked, null, 18));

    [Fact]
    public void A_cell_of_both_heads_is_filled_with_a_ring_on_it_one_that_lacks_has_a_cross_and_one_too_many_a_triangle() => Assert.Equal("""
        :::::::::::::::::::::::::::::::::::::
        |:+++++++++::...........:...+++++...:
        |+#########+:...........:..+o+xoo+..:
        |+#########+:...........:.+ooxx+oo+.:
        |+#########+:...........:.oo+xxx:oo.:
        |+#########+:...........::o+xxxx++o::
        |+#########+:...........:+o+xxxxx+o+:
        |+#########+:...........::oxxxxxx+o::
        |+#########+:...........:.+xxxxxxxo.:
        |+#########+:...........:.xxxxxxxx+.:
        |+#########+:...........:+xxxxxxxxx.:
        |:+++++++++::...........:++++++++++::
        :+:::::::::::::::::::::::::::::::::::
        +x+......:++::++|+++|++::...........:
        |+x+....:++::+#+o+xoo+#+:...........:
        |.+x+..:++:.:++ooxx+oo++:...........:
        |..+x+:++:..:+oo+xxx+oo+:...........:
        |...+xx+:...:|o+xxxx++o|:...........:
        |...:xx+....:+o+xxxxx+o+:...........:
        |..:+++x+...:|oxxxxxx+o|:...........:
        |.:++:.+x+..:++xxxxxxxo+:...........:
        |:++:...+x+.:+xxxxxxxx++:...........:
        |++:.....+x+:+xxxxxxxxx+:...........:
        |+:.......++:+++++++++++:...........:
        |||||||||||||||||||||||||||||||||||||
        """, Text(Worked, Planned, 36));

    [Fact]
    public void Every_eighth_rule_counted_from_cell_0_is_stronger()
    {
        var worked = new WorkedCells(new Grid(17, 10, 1));
        using var picture = SKBitmap.Decode(LayerPicture.Draw(worked, 0, mostPixels: 17 * 6));
        Assert.Equal((103, 61), (picture.Width, picture.Height));
        Assert.Equal("|:::::::|:::::::|:", string.Concat(Enumerable.Range(0, 18).Select(x => SignOf(picture.GetPixel(6 * x, 3)))));
        Assert.Equal("|:::::::|::", string.Concat(Enumerable.Range(0, 11).Select(y => SignOf(picture.GetPixel(3, 6 * (10 - y))))));
        Assert.Equal(('.', '.'), (SignOf(picture.GetPixel(3, 3)), SignOf(picture.GetPixel(99, 57))));
        Assert.Equal((':', ':', '|'), (SignOf(picture.GetPixel(102, 57)), SignOf(picture.GetPixel(99, 0)), SignOf(picture.GetPixel(99, 60))));
    }

    [Theory]
    [InlineData(3, 2, 4096, 24)]
    [InlineData(64, 64, 4096, 24)]
    [InlineData(65, 2, 4096, 6)]
    [InlineData(2, 65, 4096, 6)]
    [InlineData(1000, 3, 4096, 4)]
    [InlineData(3, 1000, 4096, 4)]
    [InlineData(4096, 1, 4096, 1)]
    [InlineData(10, 5, 100, 10)]
    [InlineData(200, 5, 100, 1)] // a pixel a cell at least
    public void A_cell_is_as_large_as_the_picture_allows(int x, int y, int mostPixels, int scale)
    {
        using var picture = SKBitmap.Decode(LayerPicture.Draw(new WorkedCells(new Grid(x, y, 1)), 0, mostPixels: mostPixels));
        Assert.Equal((x * scale + 1, y * scale + 1), (picture.Width, picture.Height));
    }

    [Fact]
    public void Forms_are_smooth_from_six_pixels_a_cell_on()
    {
        Assert.True(Colours(18) > Signs.Length);
        Assert.InRange(Colours(15), 2, Signs.Length);
    }

    [Fact]
    public void Every_layer_that_holds_something_has_a_picture_of_its_own()
    {
        using var folder = new TemporaryFolder();
        var worked = new WorkedCells(new Grid(3, 2, 200));
        worked.Add(new Cell(0, 0), 0, Head.A);
        worked.Add(new Cell(1, 0), 12, Head.A);
        worked.Add(new Cell(2, 0), 123, Head.B);
        Assert.Equal(3, LayerPicture.DrawAll(worked, folder.In("pictures")));
        Assert.Equal(["layer-000.png", "layer-012.png", "layer-123.png"],
            Directory.GetFiles(folder.In("pictures")).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal(LayerPicture.Draw(worked, 12), File.ReadAllBytes(Path.Combine(folder.In("pictures"), "layer-012.png")));
    }

    // Above: head a, nothing, head b. Below: nothing, both, nothing.
    private static WorkedCells Worked => Of((0, 1, Head.A), (2, 1, Head.B), (1, 0, Head.A), (1, 0, Head.B));

    // The cell at (0, 0) is missing, (1, 0) was to be of head a alone, (2, 1) was not to be.
    private static WorkedCells Planned => Of((0, 1, Head.A), (1, 0, Head.A), (0, 0, Head.A));

    private static WorkedCells Of(params (int X, int Y, Head Head)[] cells)
    {
        var worked = new WorkedCells(Grid);
        foreach (var (x, y, head) in cells)
            worked.Add(new Cell(x, y), 0, head);
        return worked;
    }

    private static string Text(WorkedCells worked, WorkedCells? planned, int mostPixels)
    {
        using var picture = SKBitmap.Decode(LayerPicture.Draw(worked, 0, planned, mostPixels));
        return string.Join('\n', Enumerable.Range(0, picture.Height).Select(y =>
            string.Concat(Enumerable.Range(0, picture.Width).Select(x => SignOf(picture.GetPixel(x, y))))));
    }

    private static int Colours(int mostPixels)
    {
        using var picture = SKBitmap.Decode(LayerPicture.Draw(Worked, 0, Planned, mostPixels));
        return picture.Pixels.Distinct().Count();
    }

    private static char SignOf(SKColor pixel)
    {
        var nearest = Signs.MinBy(each => Distance(each.Colour, pixel));
        return Distance(nearest.Colour, pixel) < 24 ? nearest.Sign : '+';
    }

    private static int Distance(SKColor one, SKColor other) =>
        Math.Max(Math.Abs(one.Red - other.Red), Math.Max(Math.Abs(one.Green - other.Green), Math.Abs(one.Blue - other.Blue)));
}

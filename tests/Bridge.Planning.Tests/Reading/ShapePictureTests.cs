using System.Buffers.Binary;
using System.IO.Hashing;
using Bridge.Jobs;
using CsCheck;
using SkiaSharp;

namespace Bridge.Planning.Tests;

public class ShapePictureTests
{
    private static readonly ShapeOptions Dithered = new() { Dither = true };

    [Fact]
    public void The_top_row_is_the_far_edge_and_dark_pixels_are_worked_by_head_a()
    {
        var shape = Read(Png(2, 3, (x, y) => (x, y) == (0, 0) ? SKColors.Black : SKColors.White));
        Assert.Equal("A.\n..\n..\n", Shapes.Written(shape));
    }

    [Theory]
    [InlineData(127, 128, true)]
    [InlineData(128, 128, false)]
    [InlineData(0, 0, false)]
    [InlineData(0, 1, true)]
    [InlineData(254, 255, true)]
    [InlineData(255, 255, false)]
    public void A_pixel_darker_than_the_threshold_is_worked(byte grey, byte threshold, bool isWorked) =>
        Assert.Equal(isWorked, Read(Png(1, 1, (_, _) => Grey(grey)), new ShapeOptions { Threshold = threshold })[0, 0, 0] == Head.A);

    // ITU-R BT.709: 0.2126, 0.7152 and 0.0722 of 255 are 54.2, 182.4 and 18.4
    [Theory]
    [InlineData(255, 0, 0, 54)]
    [InlineData(0, 255, 0, 182)]
    [InlineData(0, 0, 255, 18)]
    [InlineData(255, 255, 0, 237)]
    public void Colours_are_weighed_as_BT_709_does(byte red, byte green, byte blue, byte grey)
    {
        var png = Png(1, 1, (_, _) => new SKColor(red, green, blue));
        Assert.Null(Read(png, new ShapeOptions { Threshold = grey })[0, 0, 0]);
        Assert.NotNull(Read(png, new ShapeOptions { Threshold = (byte)(grey + 1) })[0, 0, 0]);
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(126, false)]
    [InlineData(129, true)]
    [InlineData(255, true)]
    public void Transparent_black_counts_as_white_paper(byte alpha, bool isWorked)
    {
        var png = Png(1, 1, (_, _) => SKColors.Black.WithAlpha(alpha));
        Assert.Equal(isWorked, Read(png)[0, 0, 0] is not null);
        Assert.Equal(isWorked, Read(png, Dithered)[0, 0, 0] is not null);
    }

    // The two greys next to the middle of 0 to 255
    [Theory]
    [InlineData(127)]
    [InlineData(128)]
    public void Middle_grey_dithers_to_a_checkerboard(byte grey)
    {
        var shape = Read(Png(256, 256, (_, _) => Grey(grey)), Dithered);
        var isFirst = shape[0, 0, 0] is not null;
        for (var y = 0; y < 256; y++)
            for (var x = 0; x < 256; x++)
                Assert.Equal((x + y) % 2 == 0 == isFirst, shape[x, y, 0] is not null);
    }

    [Fact]
    public void Dithering_keeps_the_tone_to_two_grey_levels() =>
        Assert.All(Enumerable.Range(0, 16).Select(step => 17 * step), grey =>
        {
            var worked = Read(Png(128, 128, (_, _) => Grey((byte)grey)), Dithered).Count(0, Head.A);
            Assert.InRange(255.0 * (1 - worked / (128.0 * 128)), grey - 2, grey + 2);
        });

    [Fact]
    public void Dithering_shares_the_error_out_to_the_right_and_below()
    {
        // Grey 200 is white and leaves -55: the right neighbour 150 becomes 150 - 55 * 7/16 = 125.9, dark; the one below,
        // 150 - 55 * 5/16 + (125.9 * 3/16) = 156.4, is white; without the share from the right it would be 132.8.
        var greys = new byte[,] { { 200, 150 }, { 150, 255 } };
        Assert.Equal(".A\n..\n", Shapes.Written(Read(Png(2, 2, (x, y) => Grey(greys[y, x])), Dithered)));
        Assert.Equal("..\n..\n", Shapes.Written(Read(Png(2, 2, (x, y) => Grey(greys[y, x])))));
    }

    // 186 is white and leaves -69. Below left of it lies 139 - 69 * 3/16 = 126.1, dark, and 140 just stays white. Below right of it
    // come 5/16 of -30 from above, 7/16 of -27 from the left and 1/16 of -69: 151 gets dark and 152 stays white; without
    // the last share 148 would.
    [Theory]
    [InlineData(1, 0, 139, "..A.")]
    [InlineData(1, 0, 140, "....")]
    [InlineData(0, 1, 151, "...A")]
    [InlineData(0, 1, 152, "....")]
    public void Dithering_shares_the_error_out_aslant(int from, int to, byte grey, string cells)
    {
        var shape = Read(Png(2, 2, (x, y) => y == 0 ? x == from ? Grey(186) : SKColors.White : x == to ? Grey(grey) : SKColors.White), Dithered);
        Assert.Equal(cells, Shapes.Written(shape).Replace("\n", "", StringComparison.Ordinal));
    }

    [Fact]
    public void Black_stays_black_and_white_stays_white_in_any_surroundings() =>
        Gen.OneOf(Gen.Byte, Gen.Const((byte)0), Gen.Const((byte)255)).Array[400].Sample(greys =>
        {
            var shape = Read(Png(20, 20, (x, y) => Grey(greys[20 * y + x])), Dithered);
            for (var i = 0; i < 400; i++)
                if (greys[i] is 0 or 255)
                    Assert.Equal(greys[i] == 0, shape[i % 20, 19 - i / 20, 0] is not null);
        }, seed: "0000dither01", iter: 200);

    [Fact]
    public void A_picture_larger_than_the_grid_is_refused()
    {
        var refusal = Refusing.Of(() => Read(Png(17, 16, (_, _) => SKColors.Black), new ShapeOptions { Limit = new Grid(16, 16, 1) }));
        Assert.Equal(("fish.png", "a picture of 17 x 16 pixels", "at most 16 x 16"), (refusal.Place, refusal.Found, refusal.Allowed));
    }

    [Fact]
    public void An_absurd_size_is_refused_from_the_header_alone()
    {
        var png = Png(1, 1, (_, _) => SKColors.Black);
        BinaryPrimitives.WriteInt32BigEndian(png.AsSpan(16), 60_000); // PNG specification: IHDR's width is at byte 16, its CRC at 29
        BinaryPrimitives.WriteInt32BigEndian(png.AsSpan(20), 60_000);
        BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(29), Crc32.HashToUInt32(png.AsSpan(12, 17)));
        Assert.Equal("a picture of 60000 x 60000 pixels", Refusing.Of(() => Read(png)).Found);
    }

    [Fact]
    public void A_cut_off_picture_is_refused_wherever_it_is_cut()
    {
        var png = Png(16, 16, (x, y) => Grey((byte)(16 * x + y)));
        const int BytesPastThePixels = 4 + 4 + 12; // the check values of zlib (RFC 1950) and of IDAT, and IEND
        Assert.All(Enumerable.Range(0, png.Length - BytesPastThePixels), length => Refusing.Of(() => Read(png[..length])));
    }

    [Fact]
    public void A_damaged_picture_gives_a_shape_or_a_refusal()
    {
        var png = Png(16, 16, (x, y) => Grey((byte)(16 * x + y)));
        Gen.Select(Gen.Int[0, png.Length - 1], Gen.Byte).Array[1, 4].Sample(damages =>
        {
            var damaged = png.ToArray();
            foreach (var (at, value) in damages)
                damaged[at] = value;
            return Refusing.GivesShapeOrRefusal(() => Read(damaged));
        }, seed: "0000png00001", iter: 500);
    }

    private static SKColor Grey(byte level) => new(level, level, level);

    private static Shape Read(byte[] png, ShapeOptions? options = null) => ShapePicture.Parse(png, "fish.png", options ?? Shapes.Any);

    private static byte[] Png(int width, int depth, Func<int, int, SKColor> pixel)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(width, depth, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        for (var y = 0; y < depth; y++)
            for (var x = 0; x < width; x++)
                bitmap.SetPixel(x, y, pixel(x, y));
        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }
}

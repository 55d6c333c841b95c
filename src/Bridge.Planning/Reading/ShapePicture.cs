using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning;

/// <summary>
/// Pictures as shapes of one layer, worked by head a where they are dark. A pixel is a cell unless a size is given; the top row is the
/// far edge (largest y).
/// </summary>
public static class ShapePicture
{
    private const byte MiddleGrey = 128;

    // PNG specification, third edition, 5.2
    private static ReadOnlySpan<byte> Signature => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Whether a file begins as every PNG does.</summary>
    public static bool IsPng(ReadOnlySpan<byte> content) => content.StartsWith(Signature);

    /// <summary>Reads a PNG; what is transparent counts as white paper.</summary>
    /// <exception cref="RefusedException">It is no whole PNG, or larger than the limit; nothing is decoded then.</exception>
    public static Shape Parse(ReadOnlySpan<byte> png, string name, ShapeOptions options)
    {
        using var data = SKData.CreateCopy(png);
        using var codec = IsPng(png) ? SKCodec.Create(data) : null;
        if (codec is null)
            throw Damaged(name);
        CheckSize(codec.Info, name, options.Size is null ? options.Limit : Shape.LargestGrid);
        var (width, depth) = Cells(codec.Info, options);
        CheckCells(width, depth, name, options.Limit);
        var greys = Greys(codec, name);
        if (options.Size is not null)
            greys = GreyScaling.Of(greys, codec.Info.Width, width, depth);
        var dark = options.Dither ? FloydSteinberg.Dark(greys, width) : Array.ConvertAll(greys, grey => grey < (options.Threshold ?? MiddleGrey));
        var shape = new ShapeBuilder(width, depth, layers: 1, name);
        for (var i = 0; i < dark.Length; i++)
            if (dark[i])
                shape.Work(new Cell(i % width, depth - 1 - i / width), 0, Head.A);
        return shape.Build();
    }

    // A pixel is a cell where no size is asked for; else the longer side is so long, and the picture keeps its look on cells that are not square.
    private static (int Width, int Depth) Cells(SKImageInfo info, ShapeOptions options)
    {
        if (options.Size is not { } size)
            return (info.Width, info.Height);
        var (pitch, isWide) = (options.Pitch, info.Width >= info.Height);
        var pixelMm = size.ToCells(isWide ? pitch.X : pitch.Y) * (isWide ? pitch.X : pitch.Y) / Math.Max(info.Width, info.Height);
        return (Whole(info.Width * pixelMm / pitch.X), Whole(info.Height * pixelMm / pitch.Y));

        static int Whole(double cells) => (int)Math.Clamp(Math.Round(cells), 1, 1 << 24);
    }

    private static void CheckCells(int width, int depth, string name, Grid limit)
    {
        if (width > limit.X || depth > limit.Y)
            throw new RefusedException(name, $"a size that makes {width} x {depth} cells", $"at most {limit.X} x {limit.Y}",
                "Give a smaller size or take a larger machine.");
    }

    private static void CheckSize(SKImageInfo info, string name, Grid limit)
    {
        if (info.Width > limit.X || info.Height > limit.Y)
            throw new RefusedException(name, $"a picture of {info.Width} x {info.Height} pixels",
                $"at most {limit.X} x {limit.Y}", "Give a size, make the picture smaller or take a larger machine.");
    }

    private static byte[] Greys(SKCodec codec, string name)
    {
        // No colour space: the levels come as they are stored.
        var info = new SKImageInfo(codec.Info.Width, codec.Info.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul, null);
        var pixels = new byte[info.BytesSize];
        if (codec.GetPixels(info, pixels) != SKCodecResult.Success)
            throw Damaged(name);
        var greys = new byte[info.Width * info.Height];
        for (var i = 0; i < greys.Length; i++)
            greys[i] = Grey(pixels.AsSpan(4 * i, 4));
        return greys;
    }

    // Luma of ITU-R BT.709 on the stored levels, 0.2126 R + 0.7152 G + 0.0722 B, laid over white.
    private static byte Grey(ReadOnlySpan<byte> rgba)
    {
        const int One = 10_000;
        var luma = 2126 * rgba[0] + 7152 * rgba[1] + 722 * rgba[2];
        var darkness = (long)(255 * One - luma) * rgba[3];
        return (byte)(255 - (darkness + 255 * One / 2) / (255 * One));
    }

    private static RefusedException Damaged(string name) =>
        new(name, "a damaged or cut-off picture", "a whole PNG", "Save the picture again as PNG.");
}

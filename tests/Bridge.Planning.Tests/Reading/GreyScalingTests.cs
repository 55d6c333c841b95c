using Bridge.Jobs;
using SkiaSharp;

namespace Bridge.Planning.Tests;

public class GreyScalingTests
{
    [Fact]
    public void A_smaller_picture_has_the_mean_of_what_each_pixel_covers()
    {
        Assert.Equal([25, 45], GreyScaling.Of([0, 10, 20, 30, 40, 50, 60, 70], width: 4, newWidth: 2, newDepth: 1).Select(grey => (int)grey));
        Assert.Equal([0, 223, 255], GreyScaling.Of([0, 0, 0, 255, 255, 255, 255, 255], width: 8, newWidth: 3, newDepth: 1).Select(grey => (int)grey));
        Assert.Equal([10, 20], GreyScaling.Of([0, 10, 20, 20, 20, 20], width: 3, newWidth: 1, newDepth: 2).Select(grey => (int)grey));
    }

    [Fact]
    public void A_larger_picture_has_each_pixel_several_times() =>
        Assert.Equal([1, 1, 2, 2, 1, 1, 2, 2], GreyScaling.Of([1, 2], width: 2, newWidth: 4, newDepth: 2).Select(grey => (int)grey));

    [Theory]
    [InlineData(4, false, 4, 2)]
    [InlineData(16, true, 8, 4)]
    [InlineData(20, false, 20, 10)]
    public void A_picture_takes_the_size_that_is_asked_for(double size, bool isMm, int width, int depth)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(40, 20, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        bitmap.Erase(SKColors.Black);
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        var options = new ShapeOptions { Limit = new Grid(20, 20, 1), Pitch = new Pitch(2, 2, 2) };
        var shape = ShapeFile.Parse(png.ToArray(), "fish.png", options with { Size = new Length(size, isMm) });
        Assert.Equal((width, depth, width * depth), (shape.Width, shape.Depth, shape.Count(0, Head.A)));
        Assert.Contains("21 x 10 cells", Refusing.Of(() => ShapeFile.Parse(png.ToArray(), "fish.png", options with { Size = new Length(21, false) })).Found);
        Assert.Contains("40 x 20 pixels", Refusing.Of(() => ShapeFile.Parse(png.ToArray(), "fish.png", options)).Found);
    }
}

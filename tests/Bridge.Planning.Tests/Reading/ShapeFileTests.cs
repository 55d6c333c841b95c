using System.Text;

namespace Bridge.Planning.Tests;

public class ShapeFileTests
{
    [Theory]
    [InlineData("fish.txt", "AB")]
    [InlineData("fish.TXT", "AB")]
    [InlineData("fish.csv", "A,B")]
    public void The_extension_tells_the_format(string name, string text) =>
        Assert.Equal("AB\n", Shapes.Written(Parse(name, Encoding.UTF8.GetBytes(text))));

    [Theory]
    [InlineData("fish.png", "AB", "a file that does not begin as a PNG does")]
    [InlineData("fish.bmp", "AB", "extension '.bmp'")]
    [InlineData("fish", "AB", "extension ''")]
    public void A_format_that_is_not_known_is_refused(string name, string text, string found) =>
        Assert.Equal(found, Refusing.Of(() => Parse(name, Encoding.UTF8.GetBytes(text))).Found);

    [Fact]
    public void A_picture_is_known_by_its_content_under_any_name() =>
        Assert.Equal("a damaged or cut-off picture", Refusing.Of(() => Parse("fish.txt", [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A])).Found);

    [Theory]
    [InlineData("fish.txt")]
    [InlineData("fish.csv")]
    public void Cells_have_no_greys_to_divide(string name)
    {
        foreach (var options in new[] { Shapes.Any with { Threshold = 128 }, Shapes.Any with { Dither = true } })
            Refusing.IsRefusedAt(name, () => ShapeFile.Parse("A"u8, name, options));
    }

    [Fact]
    public void A_missing_file_is_refused() => Refusing.IsRefusedAt("no/such/fish.txt", () => ShapeFile.Read("no/such/fish.txt", Shapes.Any));

    [Fact]
    public void A_directory_is_refused() => Refusing.IsRefusedAt(Path.GetTempPath(), () => ShapeFile.Read(Path.GetTempPath(), Shapes.Any));

    [Fact]
    public void A_file_that_is_too_long_is_refused_unread()
    {
        var path = Path.GetTempFileName();
        try
        {
            using (var file = File.OpenWrite(path))
                file.SetLength(ShapeFile.MaxBytes + 1L);
            Refusing.IsRefusedAt(path, () => ShapeFile.Read(path, Shapes.Any));
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static Shape Parse(string name, byte[] content) => ShapeFile.Parse(content, name, Shapes.Any);
}

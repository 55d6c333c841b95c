using System.Text;

namespace Bridge.Planning.Tests;

public class ShapeFileTests
{
    [Theory]
    [InlineData("fish.txt", "AB")]
    [InlineData("fish.TXT", "AB")]
    [InlineData("fish.csv", "A,B")]
    public void The_extension_tells_the_format(string name, string text) =>
        Assert.Equal("AB\n", Shapes.Written(Read(name, Encoding.UTF8.GetBytes(text))));

    [Theory]
    [InlineData("fish.png", "AB", "a file that does not begin as a PNG does")]
    [InlineData("fish.bmp", "AB", "extension '.bmp'")]
    [InlineData("fish", "AB", "extension ''")]
    public void A_format_that_is_not_known_is_refused(string name, string text, string found) =>
        Assert.Equal(found, Refusing.Of(() => Read(name, Encoding.UTF8.GetBytes(text))).Found);

    [Fact]
    public void A_picture_is_known_by_its_content_under_any_name() =>
        Assert.Equal("a damaged or cut-off picture", Refusing.Of(() => Read("fish.txt", [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A])).Found);

    [Fact]
    public void A_missing_file_is_refused() => Refusing.IsRefusedAt("no/such/fish.txt", () => ShapeFile.Read("no/such/fish.txt", Shapes.Any));

    [Fact]
    public void A_directory_is_refused() => Refusing.IsRefusedAt(Path.GetTempPath(), () => ShapeFile.Read(Path.GetTempPath(), Shapes.Any));

    [Fact]
    public void An_endless_file_is_refused_once_it_is_too_long() =>
        Assert.Equal($"more than {ShapeFile.MaxBytes} bytes", Refusing.Of(() => ShapeFile.Read(new Endless(), "fish.txt", Shapes.Any)).Found);

    private static Shape Read(string name, byte[] content) => ShapeFile.Read(new MemoryStream(content), name, Shapes.Any);

    private sealed class Endless : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count) => count;

        public override void Flush() => throw new NotSupportedException();

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}

using System.Text;
using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class HersheyFileTests
{
    // Our own: a space, a bar with a dot below it, and a corner whose pairs go on in the next line.
    private const string Font = "12345  1JZ\n    2  5RRRFRN RRR\n    3  4OUO\nFORUR\n";

    [Fact]
    public void Letters_are_read_from_the_space_on_with_the_pen_lifted_between_strokes()
    {
        var font = HersheyFile.Parse(Encoding.ASCII.GetBytes(Font), "own.jhf");
        Assert.Equal(12, font.Capital); // the first with strokes, for want of an H: from F to R
        Assert.Equal((16.0, 0), (font[new Rune(' ')]!.Advance, font[new Rune(' ')]!.Strokes.Count));
        Assert.Equal([[new Dot(0, 12), new Dot(0, 4)], [new Dot(0, 0)]], font[new Rune('!')]!.Strokes);
        Assert.Equal([[new Dot(0, 12), new Dot(0, 0), new Dot(6, 0)]], font[new Rune('"')]!.Strokes);
        Assert.Null(font[new Rune('#')]);
        var options = new ShapeOptions { Limit = new Grid(99, 99, 1), Height = new Length(5, false) };
        Assert.Equal("A..\nA..\nA..\nA..\nAAA\n", Shapes.Written(TextShape.Of("\"", font, options)));
        Assert.Equal("'H'", Refusing.Of(() => TextShape.Of("H", font, options)).Found);
    }

    [Theory]
    [InlineData("", "own.jhf", "a font without letters")]
    [InlineData("    1  1JZ\n", "own.jhf", "a font without letters")]
    [InlineData("    1  3JZRRUR\n", "own.jhf", "a capital H without height")]
    [InlineData("fish\n", "own.jhf, line 1", "a line that does not begin so")]
    [InlineData("    1  0\n", "own.jhf, line 1", "a line that does not begin so")]
    [InlineData("    1 -4JZ\n", "own.jhf, line 1", "a line that does not begin so")]
    [InlineData("    1999JZRF\n", "own.jhf, line 1", "4 characters of pairs")]
    [InlineData("    1  1JZ\n    2  2JZRFRN\n", "own.jhf, line 2", "6 characters of pairs")]
    [InlineData("    1  2JZR\u007f\n", "own.jhf, line 1", "a character that is no number")]
    public void A_broken_font_is_refused_with_its_line(string text, string place, string found)
    {
        var refusal = Refusing.Of(() => HersheyFile.Parse(Encoding.ASCII.GetBytes(text), "own.jhf"));
        Assert.Equal((place, found), (refusal.Place, refusal.Found));
    }

    [Fact]
    public void A_font_without_bounds_is_refused() => Assert.Equal("one more character",
        Refusing.Of(() => HersheyFile.Parse(Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat("    1  1JZ\n", 225))), "own.jhf")).Found);

    [Fact]
    public void A_damaged_font_gives_a_font_or_a_refusal()
    {
        var font = Encoding.ASCII.GetBytes(Font);
        Gen.Select(Gen.Int[0, font.Length - 1], Gen.Byte).Array[1, 4].Sample(damages =>
        {
            var damaged = font.ToArray();
            foreach (var (at, value) in damages)
                damaged[at] = value;
            var options = new ShapeOptions { Limit = new Grid(50, 50, 1) };
            return Refusing.GivesShapeOrRefusal(() => TextShape.Of("!", HersheyFile.Parse(damaged, "own.jhf"), options));
        }, seed: "0000jhf00001", iter: 1000);
    }
}

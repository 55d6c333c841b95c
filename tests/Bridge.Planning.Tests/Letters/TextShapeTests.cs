using Bridge.Jobs;

namespace Bridge.Planning.Tests;

public class TextShapeTests
{
    private static readonly ShapeOptions Seven = new() { Limit = new Grid(256, 256, 1), Height = new Length(7, false) };

    [Fact]
    public void A_capital_is_seven_cells_high_where_a_unit_is_a_cell() => Assert.Equal("""
        ..A...AAAAA
        .A.A..A....
        A...A.A....
        AAAAA.AAAA.
        A...A.A....
        A...A.A....
        A...A.AAAAA

        """, Shapes.Written(TextShape.Of("AE", StrokeFont.Plain, Seven)));

    [Fact]
    public void A_line_break_begins_a_new_line_and_a_space_is_left_free() => Assert.Equal("""
        A.....A
        .......
        A.....A
        A.....A
        A.....A
        A.....A
        A.....A
        .......
        .......
        .......
        .......
        .......
        .......
        .......
        .......
        .......
        .......
        A......

        """, Shapes.Written(TextShape.Of("i i\n.", StrokeFont.Plain, Seven)));

    // Those that differ by where they stand alone: an apostrophe and a grave accent, a point and a bar, are told apart beside a capital.
    [Fact]
    public void Letters_stay_apart_and_no_two_look_alike()
    {
        var forms = new HashSet<string>();
        foreach (var letter in Enumerable.Range('!', '~' - '!' + 1).Select(code => (char)code))
        {
            Assert.True(forms.Add(Shapes.Written(TextShape.Of($"HHg{letter}H", StrokeFont.Plain, Seven))), $"{letter}");
            var (one, pair) = (TextShape.Of($"{letter}", StrokeFont.Plain, Seven), TextShape.Of($"{letter}{letter}", StrokeFont.Plain, Seven));
            Assert.Equal(2 * one.Count(Head.A), pair.Count(Head.A));
        }
    }

    [Fact]
    public void Text_takes_height_size_place_and_turn_or_fills_the_grid()
    {
        Assert.Equal(256, Sides("BRIDGEBRIDGE", Seven with { Height = null }).Width);
        Assert.Equal((5, 7), Sides("L", Seven with { Height = new Length(21, true), Pitch = new Pitch(3, 3, 3) }));
        Assert.Equal((9, 13), Sides("L", Seven with { Height = null, Size = new Length(13, false) }));
        Assert.Equal((10, 12), Sides("E", Seven with { Place = new GridPlace(new Length(5, false), new Length(5, false)) }));
        Assert.Equal((7, 5), Sides("E", Seven with { Turns = [new Turn(TurnAxis.Z, 90)] }));
    }

    [Fact]
    public void What_the_font_lacks_is_refused_by_name()
    {
        Assert.Equal("'ü', '漢', character U+0009", Refusing.Of(() => TextShape.Of("für 漢\t漢", StrokeFont.Plain, Seven)).Found);
        Assert.Equal("nothing but spaces", Refusing.Of(() => TextShape.Of(" \n ", StrokeFont.Plain, Seven)).Found);
        Assert.Equal("1001 characters", Refusing.Of(() => TextShape.Of(new string('x', 1001), StrokeFont.Plain, Seven)).Found);
        Assert.Equal("letters 2 high", Refusing.Of(() => TextShape.Of("x", StrokeFont.Plain, Seven with { Height = new Length(2, false) })).Found);
        Assert.Equal("a height and a size", Refusing.Of(() => TextShape.Of("x", StrokeFont.Plain, Seven with { Size = new Length(9, false) })).Found);
        Assert.Contains("reaches to 299", Refusing.Of(() => TextShape.Of(new string('E', 50), StrokeFont.Plain, Seven)).Found);
        Assert.Contains("dithering", Refusing.Of(() => TextShape.Of("x", StrokeFont.Plain, Seven with { Dither = true })).Found);
        Assert.Contains("a height of letters", Refusing.Of(() => ShapeFile.Parse("A\n"u8, "a.txt", Seven)).Found);
    }

    private static (int Width, int Depth) Sides(string text, ShapeOptions options)
    {
        var shape = TextShape.Of(text, StrokeFont.Plain, options);
        return (shape.Width, shape.Depth);
    }
}

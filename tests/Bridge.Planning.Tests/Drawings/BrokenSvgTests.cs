using System.Text;
using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class BrokenSvgTests
{
    private const string Rich = "<style>.a{fill:#123;stroke:red}</style><defs><path id='p' class='a' d='M1 1a3 2 30 0 1 4 4q1 1 2 0T7 1C1 2 3 4 5 6z'/></defs>"
        + "<g transform='rotate(10,4,4) scale(.9)'><use href='#p' x='1'/><circle cx='4' cy='4' r='2.5' style='fill:none;stroke:#000'/></g>"
        + "<polyline points='0,0 3.5,2 7 7' stroke='black' fill='none'/>";

    [Theory]
    [InlineData("<path d='M1 1L'/>", "line 1, <path>", "M1 1L")]
    [InlineData("<path d='M0 0L1e400 5'/>", "line 1, <path>", "1e400")]
    [InlineData("<path d='M0 0L1e38 5 -1e39 2'/>", "line 1, <path>", "")]
    [InlineData("<rect width='wide' height='2'/>", "line 1, <rect>", "wide")]
    [InlineData("<circle r='NaN'/>", "line 1, <circle>", "NaN")]
    [InlineData("<polygon points='1 2 3'/>", "line 1, <polygon>", "points")]
    [InlineData("<g transform='spin(3)'/>", "line 1, <g>", "spin(3)")]
    [InlineData("<g id='a'><use href='#a'/></g>", "line 1, <use>", "used in itself")]
    [InlineData("<defs><g id='a'><use href='#b'/></g><g id='b'><use href='#a'/></g></defs><use href='#a'/>", "line 1, <use>", "used in itself")]
    public void What_is_broken_is_named_with_its_line(string elements, string place, string found)
    {
        var refusal = Refusing.Of(() => Svg.Read(elements));
        Assert.Contains(place, refusal.Place, StringComparison.Ordinal);
        Assert.Contains(found, refusal.Found, StringComparison.Ordinal);
    }

    [Fact]
    public void Uses_of_uses_are_refused_before_they_multiply_without_bound()
    {
        var bomb = string.Concat(Enumerable.Range(1, 60).Select(i =>
            $"<g id='g{i}'>{string.Concat(Enumerable.Repeat($"<use href='#g{i - 1}'/>", 10))}</g>"));
        Assert.Contains("elements to draw", Refusing.Of(() => Svg.Read($"<defs><rect id='g0' width='1' height='1'/>{bomb}</defs><use href='#g60'/>")).Found);
    }

    [Theory]
    [InlineData("<!DOCTYPE svg [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>]><svg><text>&b;</text></svg>")]
    [InlineData("<!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/hostname'>]><svg><text>&x;</text></svg>")]
    [InlineData("<svg><g></svg>")]
    [InlineData("<svg")]
    [InlineData("")]
    [InlineData("fish")]
    [InlineData("<?xml version='1.0' encoding='no-such-code'?><svg/>")]
    public void Entities_and_broken_xml_are_refused(string text) =>
        Assert.Contains("XML", Refusing.Of(() => SvgFile.Parse(Encoding.UTF8.GetBytes(text), "fish.svg", Svg.Eight)).Found);

    [Fact]
    public void A_document_type_without_entities_is_passed_over() => Assert.Equal(1, SvgFile.Parse(Encoding.UTF8.GetBytes(
        "<!DOCTYPE svg PUBLIC '-//W3C//DTD SVG 1.1//EN' 'http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd'>"
            + "<svg viewBox='0 0 8 8'><rect width='1' height='1'/></svg>"),
        "fish.svg", Svg.Eight).Count(Head.A));

    [Fact]
    public void Too_deep_and_too_many_elements_are_refused()
    {
        Assert.Contains("in one another", Refusing.Of(() => Svg.Read(string.Concat(Enumerable.Repeat("<g>", 100_000)))).Found);
        Assert.Contains("elements, attributes", Refusing.Of(() => Svg.Read(string.Concat(Enumerable.Repeat("<g/>", 600_000)))).Found);
        Assert.Equal("a document of <html>", Refusing.Of(() => SvgFile.Parse("<html/>"u8, "fish.svg", Svg.Eight)).Found);
    }

    [Fact]
    public void Too_much_to_draw_is_refused()
    {
        var zigzag = "M0 0" + string.Concat(Enumerable.Repeat("L4000 4000 0 1 ", 100_000));
        var options = new ShapeOptions { Limit = new Grid(4096, 4096, 1) };
        Assert.Contains("reasonable time", Refusing.Of(() =>
            Svg.Read(string.Concat(Enumerable.Repeat($"<path d='{zigzag}'/>", 10)), options, "viewBox='0 0 4096 4096'")).Found);
    }

    [Theory]
    [InlineData("")]
    [InlineData("<rect width='0' height='5'/>")]
    [InlineData("<rect width='5' height='5' fill='none'/>")]
    public void A_drawing_without_lines_and_areas_is_refused(string elements) =>
        Assert.Contains("without lines and areas", Refusing.Of(() => Svg.Read(elements)).Found);

    [Fact]
    public void A_drawing_that_is_empty_after_scaling_is_refused() =>
        Assert.Contains("works no cell", Refusing.Of(() => Svg.Read("<rect width='0.1' height='0.1'/>")).Found);

    [Theory]
    [InlineData("width='0'")]
    [InlineData("width='-3'")]
    [InlineData("height='1e30'")]
    [InlineData("width='tall'")]
    public void A_page_without_a_sound_size_is_refused(string size) =>
        Assert.StartsWith("fish.svg, ", Refusing.Of(() => Svg.Read("<rect width='1' height='1'/>", attributes: size)).Place);

    [Fact]
    public void A_cut_off_drawing_is_refused_wherever_it_is_cut()
    {
        var file = Svg.File(Rich);
        Assert.All(Enumerable.Range(0, file.Length), length => Refusing.Of(() => SvgFile.Parse(file.AsSpan(0, length), "fish.svg", Svg.Eight)));
    }

    [Fact]
    public void A_damaged_drawing_gives_a_shape_or_a_refusal()
    {
        var file = Svg.File(Rich);
        var bytes = Gen.OneOf(Gen.Byte, Gen.Const((byte)'9'), Gen.Const((byte)'-'), Gen.Const((byte)'e'));
        Gen.Select(Gen.Int[0, file.Length - 1], bytes).Array[1, 4].Sample(damages =>
        {
            var damaged = file.ToArray();
            foreach (var (at, value) in damages)
                damaged[at] = value;
            return Refusing.GivesShapeOrRefusal(() => SvgFile.Parse(damaged, "fish.svg", Svg.Eight));
        }, seed: "0000svg00001", iter: 2000);
    }
}

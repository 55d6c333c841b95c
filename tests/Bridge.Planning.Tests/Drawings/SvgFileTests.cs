using Bridge.Jobs;

namespace Bridge.Planning.Tests;

public class SvgFileTests
{
    private const string Square = "..AAAA..\n";

    [Fact]
    public void An_area_works_the_cells_whose_centres_it_holds_and_the_top_of_the_page_is_the_far_edge() =>
        Assert.Equal("AAA.....\nAAA.....\n" + Rows(6), Svg.Cells("<rect width='3' height='2'/>"));

    [Theory]
    [InlineData("<rect x='2' y='3' width='4' height='2'/>")]
    [InlineData("<path d='M2 3h4v2h-4z'/>")]
    [InlineData("<path d='M2,3 L6,3 6,5 2,5'/>")]
    [InlineData("<polygon points='2,3 6,3 6,5 2,5'/>")]
    [InlineData("<polyline points='2 3,6 3 6 5,2 5'/>")]
    [InlineData("<g transform='translate(2 3)'><rect width='4' height='2'/></g>")]
    [InlineData("<rect width='2' height='1' transform='matrix(2 0 0 2 2 3)'/>")]
    [InlineData("<rect width='2' height='4' transform='translate(6,3) rotate(90)'/>")]
    [InlineData("<rect x='2' y='3' width='4' height='2' transform='rotate(180 4 4),rotate(180,4,4)'/>")]
    [InlineData("<rect x='2' y='3' width='4' height='2' transform='skewX(30) skewX(-30) skewY(10)skewY(-10) scale(1)'/>")]
    [InlineData("<defs><rect id='r' width='4' height='2'/></defs><use href='#r' x='2' y='3'/>")]
    [InlineData("<defs><g id='r'><rect width='4' height='2'/></g></defs><use xlink:href='#r' transform='translate(2)' y='3'/>")]
    [InlineData("<symbol id='s' viewBox='0 0 2 1'><rect width='2' height='1'/></symbol><use href='#s' x='2' y='3' width='4' height='2'/>")]
    [InlineData("<svg x='2' y='3' width='4' height='2' viewBox='0 0 1 1' preserveAspectRatio='none'><rect width='100%' height='1'/></svg>")]
    public void Shapes_transforms_and_uses_come_to_the_same_cells(string elements) =>
        Assert.Equal(Rows(3) + Square + Square + Rows(3), Svg.Cells(elements));

    [Fact]
    public void A_line_is_one_cell_wide_whatever_its_width() =>
        Assert.Equal(Rows(4) + ".AAAAAA.\n" + Rows(3), Svg.Cells("<line x1='1.5' y1='4.5' x2='6.5' y2='4.5' stroke='black' stroke-width='3'/>"));

    [Fact]
    public void A_wide_line_is_as_wide_as_the_drawing_says() =>
        Assert.Equal(Rows(3) + "..AAAA..\n..AAAA..\n" + Rows(3),
            Svg.Cells("<line x1='2' y1='4' x2='6' y2='4' stroke='black' stroke-width='2'/>", Svg.Eight with { Wide = true }));

    [Theory]
    [InlineData("evenodd", "........\n.AAAAAA.\n.A....A.\n.A....A.\n.A....A.\n.A....A.\n.AAAAAA.\n........\n")]
    [InlineData("nonzero", "........\n.AAAAAA.\n.AAAAAA.\n.AAAAAA.\n.AAAAAA.\n.AAAAAA.\n.AAAAAA.\n........\n")]
    public void The_fill_rule_decides_on_an_area_in_an_area(string rule, string cells) =>
        Assert.Equal(cells, Svg.Cells($"<path fill-rule='{rule}' d='M1 1h6v6h-6zM2 2h4v4h-4z'/>"));

    [Theory]
    [InlineData("fill='none'", "........\n")]
    [InlineData("fill='white'", "........\n")]
    [InlineData("fill='#123'", "..AAAA..\n")]
    [InlineData("fill='#e01010'", "..BBBB..\n")]
    [InlineData("fill='rgb(0, 0, 90%)'", "..BBBB..\n")]
    [InlineData("fill='hsl(120 100% 40%)'", "..BBBB..\n")]
    [InlineData("fill='darkslategrey'", "..AAAA..\n")]
    [InlineData("fill='currentColor' color='red'", "..BBBB..\n")]
    [InlineData("style='fill:red; fill : black'", "..AAAA..\n")]
    [InlineData("fill='black' style='fill:red'", "..BBBB..\n")]
    [InlineData("class='ink' fill='white'", "..BBBB..\n")]
    [InlineData("id='one' class='ink'", "..AAAA..\n")]
    [InlineData("fill-opacity='0.3'", "........\n")]
    [InlineData("opacity='80%'", "..AAAA..\n")]
    [InlineData("visibility='hidden'", "........\n")]
    [InlineData("display='none'", "........\n")]
    public void Paint_decides_on_the_head(string attributes, string cells) => Assert.Equal(cells + "A.......\n", Svg.Cells(
        "<style>/* {} */ .ink { fill: red } #one { fill: #000 }</style>"
            + $"<rect x='2' width='4' height='1' {attributes}/><rect y='1' width='1' height='1'/>",
        attributes: "viewBox='0 0 8 2'"));

    [Fact]
    public void What_a_group_says_is_handed_down_and_light_paint_covers_what_lies_below() => Assert.Equal("BBBB....\nB..B....\nBBBB....\n",
        Svg.Cells("<g fill='red' stroke='none'><g><rect width='4' height='3'/></g></g><rect x='1' y='1' width='2' height='1' fill='white'/>",
            attributes: "viewBox='0 0 8 3'"));

    [Fact]
    public void Colours_are_worked_by_head_a_with_a_caution_where_there_is_no_head_b()
    {
        var (shape, cautions) = Svg.Told("<rect width='4' height='3' fill='red'/>", Svg.Eight with { HasHeadB = false });
        Assert.Equal((12, 0), (shape.Count(0, Head.A), shape.Count(0, Head.B)));
        Assert.Contains("no head b", Assert.Single(cautions));
    }

    [Fact]
    public void What_cannot_be_drawn_is_named_in_a_caution()
    {
        var (shape, cautions) = Svg.Told("<text x='1' y='1'>fish</text><image href='x.png'/><image/><linearGradient id='g'/>"
            + "<rect width='3' height='3' fill='url(#g)'/><rect x='4' width='2' height='2' clip-path='url(#c)'/>");
        Assert.Equal(4, shape.Count(Head.A));
        Assert.Equal(["fish.svg: not drawn: image (2 times), text.", "fish.svg: drawn without clip-path, fill by reference (gradient or pattern)."], cautions);
    }

    [Theory]
    [InlineData("width='40mm' height='20mm'", 20, 10)]
    [InlineData("width='4cm' height='1in'", 20, 12.7)]
    [InlineData("width='40' height='20'", 256, 128)]
    [InlineData("width='40mm' viewBox='0 0 4 2'", 20, 10)]
    [InlineData("viewBox='0 0 10 40'", 64, 256)]
    public void A_drawing_is_as_large_as_it_says_in_mm_or_else_as_fits(string attributes, int width, double depth)
    {
        var options = new ShapeOptions { Limit = new Grid(256, 256, 1), Pitch = new Pitch(2, 2, 2) };
        var shape = Svg.Read("<rect width='100%' height='100%'/>", options, attributes);
        Assert.Equal((width, (int)Math.Ceiling(depth)), (shape.Width, shape.Depth));
    }

    [Fact]
    public void Without_a_page_the_drawing_itself_is_the_page() =>
        Assert.Equal("AAAAAAAA\n", Svg.Cells("<line x1='-30' y1='5' x2='-10' y2='5' stroke='black'/>", attributes: ""));

    [Fact]
    public void What_lies_off_the_page_is_cut_off() =>
        Assert.Equal(Rows(4) + "AAAAAAAA\n" + Rows(3), Svg.Cells("<path stroke='black' d='M-1e6 4.500H1e6'/>"));

    private static string Rows(int count) => string.Concat(Enumerable.Repeat("........\n", count));
}

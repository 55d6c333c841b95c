using System.Text;
using Bridge.Jobs;

namespace Bridge.Planning.Tests;

public class SizesTests
{
    private const string Flag = "AA\nAB\nA.\n";

    [Theory]
    [InlineData("12", 12.0, false)]
    [InlineData("-0.5", -0.5, false)]
    [InlineData("2.5mm", 2.5, true)]
    public void A_length_is_cells_or_mm(string text, double value, bool isMm)
    {
        Assert.True(Length.TryParse(text, out var length));
        Assert.Equal(new Length(value, isMm), length);
        Assert.Equal(text, length.ToString());
        Assert.Equal(isMm ? value / 2 : value, length.ToCells(2));
    }

    [Theory]
    [InlineData("")]
    [InlineData("mm")]
    [InlineData("1e3")]
    [InlineData("NaN")]
    [InlineData("1000001")]
    [InlineData("3 mm")]
    [InlineData("3cm")]
    public void What_is_no_length_is_not_taken_for_one(string text) => Assert.False(Length.TryParse(text, out _));

    [Fact]
    public void Turns_and_places_are_read_as_people_write_them()
    {
        Assert.Equal([new Turn(TurnAxis.X, 90), new Turn(TurnAxis.Z, -12.5)], Turn.ParseAll("x90,-12.5"));
        Assert.Null(Turn.ParseAll("w90"));
        Assert.Null(Turn.ParseAll("361"));
        Assert.Null(Turn.ParseAll("1,2,3,4,5,6,7,8,9,10"));
        Assert.Equal(new GridPlace(new Length(3, true), new Length(2, true)), GridPlace.Parse("3mm,2mm"));
        Assert.Same(GridPlace.Middle, GridPlace.Parse("middle"));
        Assert.Null(GridPlace.Parse("3"));
        Assert.Null(GridPlace.Parse("-1,2"));
    }

    [Theory]
    [InlineData("0", "AA\nAB\nA.\n")]
    [InlineData("90", "AB.\nAAA\n")]
    [InlineData("-180", ".A\nBA\nAA\n")]
    [InlineData("180,90", "AAA\n.BA\n")]
    public void Cells_are_turned_by_quarters(string turn, string cells) => Assert.Equal(cells, Read(new ShapeOptions { Turns = Turn.ParseAll(turn)! }));

    [Theory]
    [InlineData("2,1", "..AA\n..AB\n..A.\n....\n")]
    [InlineData("4mm,2mm", "..AA\n..AB\n..A.\n....\n")]
    [InlineData("middle", ".AA\n.AB\n.A.\n...\n")]
    public void Cells_are_moved_to_their_place(string place, string cells) => Assert.Equal(cells,
        Read(new ShapeOptions { Place = GridPlace.Parse(place)!, Pitch = new Pitch(2, 2, 2), Limit = new Grid(4, 5, 1) }));

    [Fact]
    public void What_comes_to_lie_off_the_grid_is_refused() =>
        Assert.Equal("a shape that reaches to 5 x 4 x 1 cells", Refusing.Of(() =>
            Read(new ShapeOptions { Place = GridPlace.Parse("3,1")!, Limit = new Grid(4, 5, 1) })).Found);

    [Fact]
    public void Options_that_make_no_sense_for_cells_are_refused_in_words()
    {
        Assert.Contains("a size asked for", Refusing.Of(() => Read(new ShapeOptions { Size = new Length(4, false) })).Found);
        Assert.Contains("wide strokes", Refusing.Of(() => Read(new ShapeOptions { Wide = true })).Found);
        Assert.Contains("quarters", Refusing.Of(() => Read(new ShapeOptions { Turns = [new Turn(TurnAxis.Z, 45)] })).Found);
        Assert.Contains("quarters", Refusing.Of(() => Read(new ShapeOptions { Turns = [new Turn(TurnAxis.X, 90)] })).Found);
        Assert.Contains("dithering", Refusing.Of(() => ShapeFile.Parse(Svg.File("<rect/>"), "fish.svg", Svg.Eight with { Dither = true })).Found);
        var onItsSide = Svg.Eight with { Turns = [new Turn(TurnAxis.Y, 90)] };
        Assert.Contains("about X or Y", Refusing.Of(() => Svg.Read("<rect width='9' height='9'/>", onItsSide)).Found);
    }

    [Fact]
    public void A_drawing_takes_its_size_place_and_turn()
    {
        const string Mark = "<path d='M0 0h8v2h-6v2h-2z'/>";
        var four = Svg.Eight with { Size = new Length(4, false) };
        Assert.Equal("AAAA\nA...\n....\n....\n", Svg.Cells(Mark, four));
        Assert.Equal("..AAAA\n..A...\n......\n......\n......\n", Svg.Cells(Mark, four with { Place = GridPlace.Parse("2,1")! }));
        Assert.Equal("A...\nA...\nA...\nAA..\n", Svg.Cells(Mark, four with { Turns = [new Turn(TurnAxis.Z, 90)] }));
        Assert.Contains("reaches to 9 x 9", Refusing.Of(() => Svg.Cells(Mark, Svg.Eight with { Size = new Length(9, false) })).Found);
    }

    [Fact]
    public void A_turned_drawing_that_has_no_size_still_fits_the_grid()
    {
        var shape = Svg.Read("<rect width='8' height='8'/>", new ShapeOptions { Limit = new Grid(100, 100, 1), Turns = [new Turn(TurnAxis.Z, 45)] });
        Assert.Equal((100, 100), (shape.Width, shape.Depth));
        Assert.InRange(shape.Count(Head.A), 4950, 5050);
    }

    private static string Read(ShapeOptions options) => Shapes.Written(ShapeFile.Parse(Encoding.UTF8.GetBytes(Flag), "flag.txt", options));
}

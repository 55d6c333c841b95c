using CsCheck;
using SkiaSharp;

namespace Bridge.Planning.Tests;

public class LineCellsTests
{
    // Hearn and Baker's example of Bresenham's line, from (20, 10) to (30, 18)
    [Fact]
    public void Between_centres_of_cells_a_line_takes_Bresenhams_cells() =>
        Assert.Equal([(20, 10), (21, 11), (22, 12), (23, 12), (24, 13), (25, 14), (26, 15), (27, 16), (28, 16), (29, 17), (30, 18)],
            Cells(40, [new(20.5, 10.5), new(30.5, 18.5)]));

    [Fact]
    public void A_corner_keeps_its_cell_and_a_dot_is_a_cell()
    {
        Assert.Equal([(1, 1), (2, 1), (3, 1), (3, 2), (3, 3)], Cells(8, [new(1.2, 1.2), new(3.2, 1.2), new(3.2, 3.9)]));
        Assert.Equal([(5, 5)], Cells(8, [new(5.1, 5.1), new(5.2, 5.1)]));
        Assert.Equal([(5, 5)], Cells(8, [new(5.5, 5.5), new(5.5, 5.5)]));
    }

    [Fact]
    public void What_ends_on_the_far_edge_ends_in_the_last_cell() => Assert.Equal([(6, 7), (7, 7)], Cells(8, [new(6.5, 8), new(8, 8)]));

    [Fact]
    public void A_line_that_ends_where_cells_meet_takes_none_that_it_only_touches()
    {
        Assert.Equal([(2, 2), (3, 3), (4, 4), (5, 5)], Cells(8, [new(2, 2), new(6, 6)]));
        Assert.Equal([(5, 2), (4, 3), (3, 4), (2, 5)], Cells(8, [new(6, 2), new(2, 6)]));
        Assert.Equal([(2, 1), (3, 1)], Cells(8, [new(2, 1.5), new(4, 1.5)]));
        Assert.Equal([(3, 2), (2, 3), (2, 4), (3, 5)], Cells(8, [new(4, 2), new(2, 4), new(4, 6)]));
    }

    // A circle of Skia's ends a rounding beside where it began.
    [Fact]
    public void A_circle_has_no_corner_where_it_begins()
    {
        using var path = new SKPathBuilder();
        path.AddCircle(10.3f, 9.7f, 6.1f, SKPathDirection.Clockwise);
        var line = Assert.Single(Flattening.Of(path.Detach(), new ReadingEffort("fish")));
        Assert.Equal(line[0], line[^1]);
        Assert.All(line.Skip(1).Zip(line), chord => Assert.True(Distance(chord.First, chord.Second, chord.Second) > 0.1));
    }

    [Fact]
    public void A_path_closed_at_once_is_a_dot()
    {
        using var path = SKPath.ParseSvgPathData("M5.5 5.5Z");
        Assert.Equal([(5, 5)], Assert.Single(Flattening.Of(path, new ReadingEffort("fish")).Select(line => Cells(8, line))));
    }

    private static readonly Gen<Dot> Near = Gen.Select(Gen.Double[-5, 45], Gen.Double[-5, 45]).Select(at => new Dot(at.Item1, at.Item2));

    [Fact]
    public void Cells_are_neighbours_and_none_is_further_than_a_cell_from_the_line() => Gen.Select(Near, Near).Sample((from, to) =>
    {
        var cells = Cells(40, [from, to]);
        for (var i = 1; i < cells.Count; i++)
            Assert.True(Math.Max(Math.Abs(cells[i].X - cells[i - 1].X), Math.Abs(cells[i].Y - cells[i - 1].Y)) == 1);
        const double HalfDiagonal = 0.709; // and what counts as on an edge
        Assert.All(cells, cell => Assert.True(Distance(new Dot(cell.X + 0.5, cell.Y + 0.5), from, to) <= HalfDiagonal));
    }, seed: "0000line0001", iter: 2000);

    [Fact]
    public void No_point_of_a_line_on_the_sheet_is_further_than_a_cell_from_a_cell_of_it() => Gen.Select(Near, Near, Gen.Double[0, 1]).Sample((from, to, at) =>
    {
        var point = new Dot(from.X + at * (to.X - from.X), from.Y + at * (to.Y - from.Y));
        if (point.X is >= 0 and < 40 && point.Y is >= 0 and < 40)
            Assert.Contains(Cells(40, [from, to]), cell => Math.Abs(cell.X + 0.5 - point.X) <= 1 && Math.Abs(cell.Y + 0.5 - point.Y) <= 1);
    }, seed: "0000line0002", iter: 2000);

    private static IReadOnlyList<(int X, int Y)> Cells(int size, List<Dot> line) => new LineCells(size, size, new ReadingEffort("fish")).Of(line);

    private static double Distance(Dot point, Dot from, Dot to)
    {
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        var length = Math.Max(double.Epsilon, dx * dx + dy * dy);
        var along = Math.Clamp(((point.X - from.X) * dx + (point.Y - from.Y) * dy) / length, 0, 1);
        return Math.Sqrt(Math.Pow(point.X - from.X - along * dx, 2) + Math.Pow(point.Y - from.Y - along * dy, 2));
    }
}

using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class SmoothingTests
{
    private const long Plenty = 1_000_000_000;
    private static readonly Machine Pens = Machines.Desktop with { MayOverprint = true };

    [Theory]
    [InlineData("AAAAA\nAA.AA\nAAAAA", "AAAAA\nAAAAA\nAAAAA\n")] // a hole takes three records more
    [InlineData("AAAA.\n.....\n....A", "AAAA.\n.....\n.....\n")] // a cell alone takes one
    [InlineData("AAAAA\nAAAAA\n..A..", "AAAAA\nAAAAA\n.....\n")]
    [InlineData("AAAAA\nAAAAA\nA..AA", "AAAAA\nAAAAA\n...AA\n")]
    public void What_saves_most_for_a_cell_is_put_in_or_left_out_first(string text, string smooth)
    {
        var shape = Shapes.Text(text);
        var edits = Smoothing.Edits(shape, Pens, mostCells: 1, new Effort(Plenty));
        Assert.Equal(smooth, Shapes.Written(Edit.Made(shape, edits.Select(edit => edit.Edit))));
    }

    [Fact]
    public void No_more_cells_are_changed_than_allowed_and_records_are_saved()
    {
        var (before, after) = (0, 0);
        foreach (var (shape, most) in FixedSamples.Of(Gen.Select(Shapes.Random(14, 14, 3).Where(shape => !shape.IsEmptyEverywhere), Gen.Int[0, 30]), 60))
        {
            var edits = Smoothing.Edits(shape, Pens, most, new Effort(Plenty)).ConvertAll(edit => edit.Edit);
            Assert.InRange(edits.Sum(edit => edit.Cells.Count), 0, most);
            var smooth = Edit.Made(shape, edits);
            Assert.InRange(smooth.IsEmptyEverywhere ? 0 : Fewest(smooth), 0, Fewest(shape));
            (before, after) = (before + Fewest(shape), after + (smooth.IsEmptyEverywhere ? 0 : Fewest(smooth)));
        }
        Assert.True(after < 0.8 * before, $"{before} to {after}");
    }

    [Fact]
    public void On_a_machine_that_deposits_no_edit_makes_a_cell_fall() =>
        Shapes.Random(9, 9, 5).Where(shape => !shape.IsEmptyEverywhere).Select(shape => Held(shape)).Where(shape => shape is not null).Sample(shape =>
        {
            var edits = Smoothing.Edits(shape!, Machines.Desktop, 50, new Effort(Plenty)).ConvertAll(edit => edit.Edit);
            Assert.Null(Support.Falling(Edit.Made(shape!, edits), Machines.Desktop));
        }, seed: "0000smooth02", iter: 60);

    [Theory]
    [InlineData("AA...\n.AA..\n..AA.\n...AA")] // a stroke
    [InlineData("AAAAA\nAAAAA\n..A..\nAAAAA\nAAAAA")] // a neck
    [InlineData("AAAA\n....\nAAAA")] // two strokes
    public void No_piece_is_taken_apart_and_no_two_are_joined(string text)
    {
        var shape = Shapes.Text(text);
        var smooth = Edit.Made(shape, Smoothing.Edits(shape, Pens, 3, new Effort(Plenty)).Select(edit => edit.Edit));
        Assert.Equal(Pieces(shape), Pieces(smooth));
    }

    [Fact]
    public void Pieces_may_go_as_a_whole_but_never_become_more() =>
        Shapes.Random(12, 12, 1).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var smooth = Edit.Made(shape, Smoothing.Edits(shape, Pens, 40, new Effort(Plenty)).Select(edit => edit.Edit));
            Assert.InRange(Pieces(smooth), 0, Pieces(shape));
        }, seed: "0000smooth03", iter: 60);

    [Fact]
    public void Layers_that_are_alike_stay_alike()
    {
        var shape = Shapes.Text("AAAA\nAA.A\nAAAA\n---\nAAAA\nAA.A\nAAAA\n---\nAAAA\nAA.A\nAAAA");
        var edit = Assert.Single(Smoothing.Edits(shape, Machines.Desktop, 3, new Effort(Plenty))).Edit;
        Assert.Equal(3, edit.Cells.Count);
        Assert.Empty(Smoothing.Edits(shape, Machines.Desktop, 2, new Effort(Plenty)));
    }

    // Not by the planner's search, which may find more in one shape than in the other.
    private static int Fewest(Shape shape) => (from layer in Enumerable.Range(0, shape.Layers)
                                               from head in new[] { Head.A, Head.B }
                                               select Mask.Of(shape, layer, head) is { } mask ? RectanglePartition.Fewest(mask) : 0).Sum();

    // Worked cells of the lowest layer that hang together by sides or corners.
    private static int Pieces(Shape shape)
    {
        var left = (from y in Enumerable.Range(0, shape.Depth)
                    from x in Enumerable.Range(0, shape.Width)
                    where shape[x, y, 0] is not null
                    select (x, y)).ToHashSet();
        var pieces = 0;
        for (; left.Count > 0; pieces++)
        {
            var waiting = new Stack<(int X, int Y)>([left.First()]);
            while (waiting.TryPop(out var cell))
                if (left.Remove(cell))
                    foreach (var near in left.Where(other => Math.Abs(other.x - cell.X) <= 1 && Math.Abs(other.y - cell.Y) <= 1))
                        waiting.Push(near);
        }
        return pieces;
    }

    private static Shape? Held(Shape shape)
    {
        try
        {
            return Support.Under(shape, Machines.Desktop);
        }
        catch (RefusedException)
        {
            return null;
        }
    }
}

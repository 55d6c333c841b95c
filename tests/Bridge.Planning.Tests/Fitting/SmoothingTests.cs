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
        var edits = Smoothing.Edits(shape, Pens, mostCells: 2, mostRecords: 1, new Effort(Plenty));
        Assert.Equal(smooth, Shapes.Written(Edit.Made(shape, edits.Select(edit => edit.Edit))));
    }

    [Fact]
    public void No_more_cells_are_changed_than_allowed_and_records_are_saved()
    {
        var (before, after) = (0, 0);
        Gen.Select(Shapes.Random(14, 14, 3).Where(shape => !shape.IsEmptyEverywhere), Gen.Int[0, 30]).Sample((shape, most) =>
        {
            var edits = Smoothing.Edits(shape, Pens, most, 1000, new Effort(Plenty)).ConvertAll(edit => edit.Edit);
            Assert.InRange(edits.Sum(edit => edit.Cells.Count), 0, most);
            var smooth = Edit.Made(shape, edits);
            Assert.InRange(smooth.IsEmptyEverywhere ? 0 : Fewest(smooth), 0, Fewest(shape));
            (before, after) = (before + Fewest(shape), after + (smooth.IsEmptyEverywhere ? 0 : Fewest(smooth)));
        }, seed: "0000smooth01", iter: 60, threads: 1);
        Assert.True(after < 0.8 * before, $"{before} to {after}");
    }

    [Fact]
    public void On_a_machine_that_deposits_no_edit_makes_a_cell_fall() =>
        Shapes.Random(9, 9, 5).Where(shape => !shape.IsEmptyEverywhere).Select(shape => Held(shape)).Where(shape => shape is not null).Sample(shape =>
        {
            var edits = Smoothing.Edits(shape!, Machines.Desktop, 50, 1000, new Effort(Plenty)).ConvertAll(edit => edit.Edit);
            Assert.Null(Support.Falling(Edit.Made(shape!, edits), Machines.Desktop));
        }, seed: "0000smooth02", iter: 60);

    [Fact]
    public void Layers_that_are_alike_stay_alike()
    {
        var shape = Shapes.Text("AAAA\nAA.A\nAAAA\n---\nAAAA\nAA.A\nAAAA\n---\nAAAA\nAA.A\nAAAA");
        var edit = Assert.Single(Smoothing.Edits(shape, Machines.Desktop, 3, 1, new Effort(Plenty))).Edit;
        Assert.Equal(3, edit.Cells.Count);
        Assert.Empty(Smoothing.Edits(shape, Machines.Desktop, 2, 1, new Effort(Plenty)));
    }

    // Not by the planner's search, which may find more in one shape than in the other.
    private static int Fewest(Shape shape) => (from layer in Enumerable.Range(0, shape.Layers)
                                               from head in new[] { Head.A, Head.B }
                                               select Mask.Of(shape, layer, head) is { } mask ? RectanglePartition.Fewest(mask) : 0).Sum();

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

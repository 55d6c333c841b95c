using CsCheck;

namespace Bridge.Planning.Tests;

public class EveningTests
{
    [Fact]
    public void Nearly_equal_layers_become_equal_at_the_least_cost()
    {
        var edits = Assert.Single(Evening.Proposals(Shapes.Text("AAAA\nAAAA\n---\nAAAA\nAAA.\n---\nAAAA\nAAAA"), 8, new Effort(1_000_000_000)));
        Assert.Equal("layers 0 to 2 made alike", Assert.Single(edits).Words);
        Assert.Equal(new CellEdit(3, 1, Shape.Mark(Jobs.Head.A)), Assert.Single(edits[0].Cells));
    }

    [Fact]
    public void Groups_of_layers_become_alike_too()
    {
        var shape = Shapes.Text("AA.AA.AA\n---\nBBBBBBBB\n---\nAA.AA.AA\n---\nBBBBBBB.\n---\nAA.AA.AA\n---\nBBBBBBBB");
        var edits = Evening.Proposals(shape, 3, new Effort(1_000_000_000)).First();
        Assert.Equal("layers 0 to 5 made alike, 2 by 2", Assert.Single(edits).Words);
        Assert.Equal(7, Assert.Single(edits[0].Cells).Place);
    }

    [Fact]
    public void Each_proposal_changes_more_cells_than_the_one_before_and_no_more_than_allowed() =>
        Gen.Select(Noisy(), Gen.Int[0, 40]).Sample((shape, most) =>
        {
            var before = 0;
            foreach (var edits in Evening.Proposals(shape, most, new Effort(1_000_000_000)))
            {
                var made = ShapeCheck.Compare(shape, Edit.Made(shape, edits));
                Assert.Equal(edits.Sum(edit => edit.Cells.Count), made.Missing + made.Extra + made.WrongHead);
                Assert.InRange(edits.Sum(edit => edit.Cells.Count), before + 1, most);
                before = edits.Sum(edit => edit.Cells.Count);
            }
        }, seed: "0000evening1", iter: 60);

    [Fact]
    public void Layers_made_alike_are_done_by_again()
    {
        var saved = 0;
        Noisy().Sample(shape =>
        {
            foreach (var edits in Evening.Proposals(shape, 1000, new Effort(1_000_000_000)).TakeLast(1))
                saved += Records(shape) - Records(Edit.Made(shape, edits));
        }, seed: "0000evening2", iter: 20, threads: 1);
        Assert.InRange(saved, 100, int.MaxValue);
    }

    private static int Records(Shape shape) => Planner.Plan(shape, Machines.Desktop, 0.01).Records.Count;

    // A box with some cells missing here and there.
    private static Gen<Shape> Noisy() => Gen.Int[0, 12 * 12 * 8 - 1].Array[0, 30].Select(missing =>
    {
        var shape = new ShapeBuilder(12, 12, 8);
        foreach (var cell in Enumerable.Range(0, 12 * 12 * 8).Except(missing))
            shape.Work(new Jobs.Cell(cell % 12, cell / 12 % 12), cell / 144, Jobs.Head.A);
        return shape.Build();
    });
}

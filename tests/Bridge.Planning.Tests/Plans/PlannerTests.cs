using Bridge.Jobs;
using CsCheck;
using Record = Bridge.Jobs.Record;

namespace Bridge.Planning.Tests;

public class PlannerTests
{
    private const double Quick = 0.01;

    [Fact]
    public void Every_cell_is_worked_once_by_its_head_in_ascending_layers() =>
        Shapes.Random(16, 16, 5).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var plan = Planner.Plan(shape, Machines.Desktop, Quick);
            var job = new Decoded(plan);
            Assert.True(ShapeCheck.Compare(shape, job.ToShape(shape)).IsNone);
            Assert.Equal(job.Worked.Select(cell => cell.Layer).Order(), job.Worked.Select(cell => cell.Layer));
            if (plan.Records.All(record => record.Verb != Verb.Again)) // what is done again may be come to from elsewhere
                Assert.All(job.Gone, gone => Assert.Equal((gone.FromX, gone.FromY), (gone.Record.X, gone.Record.Y)));
        }, seed: "0000planner1", iter: 400);

    [Fact]
    public void Every_job_is_proved_against_its_machine() =>
        Shapes.Random(16, 16, 5).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var machine = Machines.Make(RecordWidth.Four, 16, 16, 5, 1 << 16);
            var plan = Planner.Plan(shape, machine, Quick);
            var proof = JobProof.Of(Image.Of(plan.Width, plan.Records), machine);
            Assert.Empty(proof.Faults);
            Assert.Equal((plan.Layers.Sum(layer => layer.CellsA), plan.Layers.Sum(layer => layer.CellsB)), (proof.WorkedByA, proof.WorkedByB));
        }, seed: "0000planner7", iter: 100);

    [Fact]
    public void Every_cell_is_worked_once_on_a_wide_grid() =>
        Shapes.Random(100, 200, 2).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var job = new Decoded(Planner.Plan(shape, Machines.Make(RecordWidth.Eight, 256, 256, 2, 4096), Quick));
            Assert.True(ShapeCheck.Compare(shape, job.ToShape(shape)).IsNone);
        }, seed: "0000planner2", iter: 20);

    [Fact]
    public void No_layer_takes_more_records_than_it_has_horizontal_runs() =>
        Shapes.Random(16, 16, 3).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
            Assert.All(Planner.Plan(shape, Machines.Desktop, Quick).Layers, cost =>
                Assert.InRange(cost.Records, 0, Math.Max(shape.IsEmpty(cost.Layer) ? 1 : 0, HorizontalRuns(shape, cost.Layer)))),
            seed: "0000planner3", iter: 400);

    [Fact]
    public void Layer_costs_add_up_to_the_job_and_count_the_cells() =>
        Shapes.Random(12, 12, 5).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var plan = Planner.Plan(shape, Machines.Desktop, Quick);
            var job = new Decoded(plan);
            Assert.Equal(plan.Records.Count - (job.HasEnd ? 1 : 0), plan.Layers.Sum(layer => layer.Records));
            Assert.All(plan.Layers, cost => Assert.Equal(cost.Records * 3L, cost.Bytes));
            Assert.All(plan.Layers, cost => Assert.Equal(job.Worked.Count(cell => cell.Layer == cost.Layer && cell.Head == Head.A), cost.CellsA));
            Assert.All(plan.Layers, cost => Assert.Equal(job.Worked.Count(cell => cell.Layer == cost.Layer && cell.Head == Head.B), cost.CellsB));
        }, seed: "0000planner4", iter: 100);

    // A group of records that is repeated begins with the same head each time: fewer bytes come before fewer changes.
    [Fact]
    public void Heads_change_at_most_once_on_a_layer_where_nothing_is_repeated() =>
        Shapes.Random(12, 12, 5).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var plan = Planner.Plan(shape, Machines.Desktop, Quick);
            if (!plan.Records.Any(record => record.Verb == Verb.Again))
                Assert.InRange(new Decoded(plan).HeadChanges, 0, shape.Layers);
        }, seed: "0000planner5", iter: 100);

    [Fact]
    public void The_same_shape_gives_the_same_job() =>
        Shapes.Random(16, 16, 4).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
            Assert.Equal(
                Planner.Plan(shape, Machines.Desktop, Quick).Records,
                Planner.Plan(Shapes.Text(Shapes.Written(shape)), Machines.Desktop, Quick).Records),
            seed: "0000planner6", iter: 50);

    [Theory]
    [InlineData("A", 1)]
    [InlineData("AAAAA", 1)]
    [InlineData("A\nA\nA", 1)]
    [InlineData("AAA\nAAA\nAAA", 1)]
    [InlineData("A..\n.A.\n..A", 1)]
    [InlineData("..A\n.A.\nA..", 1)]
    [InlineData("A.A\n.A.\nA.A", 3)]
    [InlineData("AB\nAB", 2)]
    [InlineData(".A.\nAAA\n.A.", 3)] // a plus cannot be cut into fewer than 3 rectangles
    [InlineData("A.A\nA.A\nAAA", 3)] // nor a U
    [InlineData("AAA\nA.A\nAAA", 4)] // nor a ring, into fewer than 4
    public void Small_shapes_take_the_fewest_records(string text, int records) =>
        Assert.Equal(records + 1, Planner.Plan(Shapes.Text(text), Machines.Desktop).Records.Count);

    [Fact]
    public void A_single_cell_is_a_row_of_one() =>
        Assert.Equal([Record.Row(RecordWidth.Four, Head.B, new Cell(2, 1), 0, 1), Record.End], Planner.Plan(Shapes.Text("..B\n..."), Machines.Desktop).Records);

    [Fact]
    public void A_layer_begins_with_the_head_that_the_last_one_ended_with()
    {
        var job = new Decoded(Planner.Plan(Shapes.Text("AB.\n---\n.AB\n---\nBA."), Machines.Desktop));
        Assert.Equal(3, job.HeadChanges);
    }

    [Fact]
    public void A_higher_layer_is_reached_by_the_first_record_that_works_on_it()
    {
        var plan = Planner.Plan(Shapes.Text("A..\n---\n..A"), Machines.Desktop);
        Assert.Equal([false, true, false], plan.Records.Select(record => record.Rise));
        Assert.Equal(3, plan.Records.Count);
    }

    [Fact]
    public void An_empty_layer_is_passed_without_going_sideways()
    {
        var plan = Planner.Plan(Shapes.Text("..B\n---\n---\n---\nA.."), Machines.Desktop);
        Assert.Equal([1, 1, 1, 1], plan.Layers.Select(layer => layer.Records));
        Assert.All(new Decoded(plan).Gone, gone =>
        {
            Assert.Equal((gone.FromX, gone.FromY), (gone.Record.X, gone.Record.Y));
            Assert.Equal((Head.B, true), (gone.Record.Head, gone.Record.Rise));
        });
    }

    [Fact]
    public void An_empty_lowest_layer_costs_nothing_and_empty_layers_on_top_neither()
    {
        var plan = Planner.Plan(Shapes.Text("---\nAA\n---\n---\n"), Machines.Desktop);
        Assert.Equal([Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 2, rise: true), Record.End], plan.Records);
        Assert.Equal([0, 1], plan.Layers.Select(layer => layer.Records));
    }

    [Theory]
    [InlineData(2, 6, false, true)] // full to its last record
    [InlineData(2, 8, false, true)] // two bytes over are no room for another record
    [InlineData(2, 9, true, true)]
    [InlineData(2, 5, true, false)]
    [InlineData(2, 3, true, false)]
    public void The_end_is_left_out_only_where_the_store_is_full(int records, int storeBytes, bool hasEnd, bool fits)
    {
        var shape = Shapes.Text(string.Concat(Enumerable.Repeat("A.", records)));
        var plan = Planner.Plan(shape, Machines.Make(RecordWidth.Four, 16, 16, 1, storeBytes));
        Assert.Equal((hasEnd, fits), (new Decoded(plan).HasEnd, plan.Fits));
        Assert.Equal(3 * (records + (hasEnd ? 1 : 0)), plan.ImageBytes);
    }

    [Fact]
    public void A_whole_wide_layer_is_one_patch()
    {
        var shape = new ShapeBuilder(4096, 300);
        for (var i = 0; i < 4096 * 300; i++)
            shape.Work(new Cell(i % 4096, i / 4096), 0, Head.A);
        var plan = Planner.Plan(shape.Build(), Machines.Make(RecordWidth.Twelve, 4096, 4096, 1, 7));
        Assert.Equal([Record.Patch(Head.A, new Cell(0, 0), 4096, 300, PatchWay.AlongX)], plan.Records);
    }

    [Fact]
    public void A_shape_with_nothing_to_work_is_refused() =>
        Assert.Equal("nothing to work", Refusing.Of(() => Planner.Plan(Shapes.Text("...\n...\n"), Machines.Desktop)).Found);

    [Fact]
    public void A_cell_off_the_grid_is_refused_by_its_place() =>
        Refusing.IsRefusedAt("layer 1, cell (2, 0)", () => Planner.Plan(Shapes.Text("AA.\n---\nA.A"), Machines.Make(RecordWidth.Four, 2, 2, 4, 256)));

    [Fact]
    public void A_layer_above_the_grid_is_refused_by_its_place() =>
        Refusing.IsRefusedAt("layer 1, cell (0, 0)", () => Planner.Plan(Shapes.Text("A\n---\nA"), Machines.Make(RecordWidth.Four, 16, 16, 1, 256)));

    [Fact]
    public void A_head_that_the_machine_lacks_is_refused_by_its_place() =>
        Refusing.IsRefusedAt("layer 0, cell (1, 0)", () => Planner.Plan(Shapes.Text("AB"),
            Machines.Make(RecordWidth.Four, 16, 16, 1, 256, hasTwoHeads: false)));

    private static int HorizontalRuns(Shape shape, int layer) => (
        from y in Enumerable.Range(0, shape.Depth)
        from x in Enumerable.Range(0, shape.Width)
        where shape[x, y, layer] is not null && shape[x, y, layer] != shape[x - 1, y, layer]
        select x).Count();
}

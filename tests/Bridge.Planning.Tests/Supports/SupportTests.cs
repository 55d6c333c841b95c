using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class SupportTests
{
    private const string Box = "AAAAA\nAAAAA\nAAAAA\nAAAAA\nAAAAA";
    private const string Walls = "AAAAA\nA...A\nA...A\nA...A\nAAAAA";

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Whatever_the_shape_nothing_falls_and_the_support_can_be_taken_out(int overhang)
    {
        var (supported, refused) = (0, 0);
        Shapes.Random(12, 12, 6).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var machine = Desktop(overhang);
            var outside = ReachedFromOutside(shape);
            if (Under(shape, machine) is not { } held)
            {
                refused++;
                Assert.True(outside.Count + CellsOf(shape).Count() < shape.Width * shape.Depth * shape.Layers, "There is a closed hollow.");
                return;
            }
            Assert.Null(Support.Falling(held, machine));
            Assert.All(CellsOf(shape), cell => Assert.Equal(cell.Head, held[cell.X, cell.Y, cell.Layer]));
            var added = CellsOf(held).Except(CellsOf(shape)).ToList();
            Assert.All(added, cell => Assert.Equal(Head.B, cell.Head));
            Assert.Subset(outside, added.Select(cell => (cell.X, cell.Y, cell.Layer)).ToHashSet());
            Assert.Empty(ProofOf(held, machine).Cautions);
            Assert.Equal(ProofOf(shape, machine).Cautions.Count > 0, added.Count > 0);
            supported += added.Count > 0 ? 1 : 0;
        }, seed: "0000support1", iter: 80, threads: 1);
        Assert.True(supported > 10 && refused < supported, $"{supported} supported, {refused} refused");
    }

    [Fact]
    public void A_shape_that_nothing_falls_of_stays_as_it_is()
    {
        var pyramid = Shapes.Text("AAA\nAAA\nAAA\n---\n...\n.A.\n...\n---\nAAA\nAAA\nAAA");
        Assert.Same(pyramid, Support.Under(pyramid, Desktop(1)));
        Assert.NotSame(pyramid, Support.Under(pyramid, Desktop(0)));
    }

    [Fact]
    public void Pens_draw_on_one_sheet_and_one_head_cannot_support()
    {
        var floating = Shapes.Text("A...\n---\n...A");
        Assert.Null(Support.Falling(floating, Desktop(1) with { MayOverprint = true }));
        Assert.Same(floating, Support.Under(floating, Desktop(1) with { MayOverprint = true }));
        Assert.Same(floating, Support.Under(floating, Desktop(1) with { B = null }));
    }

    [Fact]
    public void What_would_fall_is_told_by_its_layer()
    {
        var refusal = Support.Falling(Shapes.Text("A...\n---\nA...\n---\nAAAA"), Desktop(1))!;
        Assert.Equal(("layer 2", "2 cells with nothing below them, the first (2, 0)"), (refusal.Place, refusal.Found));
    }

    [Fact]
    public void Support_cells_of_the_shape_are_kept_and_only_what_they_leave_is_added() =>
        Assert.Equal("ABB..BB\n---\nAAA..AA\n", Shapes.Written(Support.Under(Shapes.Text("ABB....\n---\nAAA..AA"), Desktop(0))));

    [Fact]
    public void Support_under_a_ring_around_a_leg_takes_as_few_records_as_the_ring()
    {
        var held = Support.Under(Shapes.Text($"AAAAA\n.....\n.....\n.....\n.....\n---\n{Walls}"), Desktop(1));
        Assert.InRange(Planner.Plan(held, Desktop(1)).Layers[0].Records, 2, 4);
        var single = Support.Under(Shapes.Text($"A....\n.....\n.....\n.....\n.....\n---\n{Box}"), Desktop(1));
        Assert.Equal(2, Planner.Plan(single, Desktop(1)).Layers[0].Records);
    }

    [Fact]
    public void High_support_is_alike_on_every_layer_and_done_by_again()
    {
        var layers = string.Concat(Enumerable.Repeat("......\n......\n..AA..\n..AA..\n......\n......\n---\n", 12));
        var held = Support.Under(Shapes.Text(layers + string.Join('\n', Enumerable.Repeat("AAAAAA", 6))), Desktop(1));
        Assert.InRange(Planner.Plan(held, Desktop(1)).Records.Count, 1, 9);
    }

    [Fact]
    public void A_roof_over_a_closed_hollow_is_refused_and_over_an_open_one_supported()
    {
        var closed = $"{Box}\n---\n{Walls}\n---\n{Box}";
        Refusing.IsRefusedAt("layer 2, cell (2, 2)", () => Support.Under(Shapes.Text(closed), Desktop(1)));
        var open = $"{Box}\n---\n{Walls[..^5]}AA.AA\n---\n{Box}";
        Assert.Equal(Head.B, Support.Under(Shapes.Text(open), Desktop(1))[2, 2, 1]);
        var fromBelow = $"{Walls}\n---\n{Walls}\n---\n{Box}"; // it is lifted off the table
        Assert.Equal(Head.B, Support.Under(Shapes.Text(fromBelow), Desktop(1))[2, 2, 1]);
        var own = $"{Box}\n---\n{Walls.Replace("A...A\nA...A\nA...A", "A...A\nA.B.A\nA...A", StringComparison.Ordinal)}\n---\n{Box}";
        Assert.Null(Support.Falling(Support.Under(Shapes.Text(own), Desktop(1)), Desktop(1)));
    }

    [Fact]
    public void The_same_shape_gets_the_same_support() =>
        Shapes.Random(10, 10, 5).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
            Assert.Equal(
                Under(shape, Desktop(1)) is { } once ? Shapes.Written(once) : "",
                Under(shape, Desktop(1)) is { } again ? Shapes.Written(again) : ""),
            seed: "0000support2", iter: 30);

    private static Machine Desktop(int overhang) => Machines.Make(RecordWidth.Four, 16, 16, 16, 1 << 16) with { OverhangCells = overhang };

    private static Shape? Under(Shape shape, Machine machine)
    {
        try
        {
            return Support.Under(shape, machine);
        }
        catch (RefusedException refused) when (refused.Refusals[0].Found == "a cell over a closed hollow")
        {
            return null;
        }
    }

    private static JobProof ProofOf(Shape shape, Machine machine)
    {
        var plan = Planner.Plan(shape, machine, 0.01);
        return JobProof.Of(Image.Of(plan.Width, plan.Records), machine);
    }

    private static IEnumerable<(int X, int Y, int Layer, Head Head)> CellsOf(Shape shape) =>
        from layer in Enumerable.Range(0, shape.Layers)
        from y in Enumerable.Range(0, shape.Depth)
        from x in Enumerable.Range(0, shape.Width)
        where shape[x, y, layer] is not null
        select (x, y, layer, shape[x, y, layer]!.Value);

    // Empty cells that a cell outside the box leads to through sides, those already found again and again until none is new.
    private static HashSet<(int X, int Y, int Layer)> ReachedFromOutside(Shape shape)
    {
        var reached = new HashSet<(int X, int Y, int Layer)>();
        int before;
        do
        {
            before = reached.Count;
            for (var layer = 0; layer < shape.Layers; layer++)
                for (var y = 0; y < shape.Depth; y++)
                    for (var x = 0; x < shape.Width; x++)
                        if (shape[x, y, layer] is null && Sides(x, y, layer).Any(side => IsOutside(shape, side) || reached.Contains(side)))
                            reached.Add((x, y, layer));
        }
        while (reached.Count > before);
        return reached;
    }

    private static (int X, int Y, int Layer)[] Sides(int x, int y, int layer) =>
        [(x - 1, y, layer), (x + 1, y, layer), (x, y - 1, layer), (x, y + 1, layer), (x, y, layer - 1), (x, y, layer + 1)];

    private static bool IsOutside(Shape shape, (int X, int Y, int Layer) cell) =>
        cell.X < 0 || cell.Y < 0 || cell.Layer < 0 || cell.X >= shape.Width || cell.Y >= shape.Depth || cell.Layer >= shape.Layers;
}

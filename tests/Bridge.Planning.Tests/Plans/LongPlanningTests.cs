using Bridge.Jobs;

namespace Bridge.Planning.Tests;

public class LongPlanningTests
{
    private static readonly Shape Noise = Drawn(Masks.Noise(16, 16, 60, seed: 9));

    [Fact]
    public void Planning_that_is_ended_before_it_began_gives_a_whole_plan_all_the_same()
    {
        var ended = new CancellationToken(canceled: true);
        foreach (var plan in new[] { Planner.Plan(Noise, Machines.Desktop, 1000, ended), LongPlanning.Plan(Noise, Machines.Desktop, null, ended) })
        {
            Assert.True(ShapeCheck.Compare(Noise, new Decoded(plan).ToShape(Noise)).IsNone);
            Assert.InRange(plan.Layers[0].Records, plan.Layers[0].AtLeast, plan.Layers[0].Rectangles);
            Assert.Equal(plan.Layers[0].Records - plan.Layers[0].AtLeast, plan.Gap);
        }
    }

    [Fact]
    public void Each_plan_that_is_told_is_better_and_the_last_one_is_given()
    {
        using var ended = new CancellationTokenSource();
        List<Plan> told = [];
        var plan = LongPlanning.Plan(Noise, Machines.Desktop, better =>
        {
            told.Add(better);
            if (told.Count == 2)
                ended.Cancel();
        }, ended.Token);
        Assert.Same(told[^1], plan);
        Assert.Equal(told.Select(better => better.Records.Count).OrderDescending(), told.Select(better => better.Records.Count));
        Assert.True(ShapeCheck.Compare(Noise, new Decoded(plan).ToShape(Noise)).IsNone);
    }

    [Fact]
    public void A_plan_that_is_proved_has_no_gap() => Assert.Equal(0, Planner.Plan(Shapes.Text("AA.\n.AA"), Machines.Desktop).Gap);

    private static Shape Drawn(Mask mask)
    {
        var shape = new ShapeBuilder(16, 16);
        foreach (var (x, y) in Masks.CellsOf(mask))
            shape.Work(new Cell(x, y), 0, Head.A);
        return shape.Build();
    }
}

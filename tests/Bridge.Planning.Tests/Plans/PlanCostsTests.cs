using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class PlanCostsTests
{
    [Fact]
    public void Each_kind_of_record_is_a_cost_and_together_they_are_the_plan() =>
        Shapes.Random(12, 12, 4).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var plan = Planner.Plan(shape, Machines.Desktop, 0.01);
            var costs = PlanCosts.Of(plan);
            Assert.Equal(plan.Records.Count, costs.Sum(cost => cost.Records));
            Assert.Equal(plan.ImageBytes, costs.Sum(cost => cost.Bytes));
            Assert.Equal(costs.Count, costs.Select(cost => (cost.Feature, cost.Head)).Distinct().Count());
        }, seed: "0000costs001", iter: 40);

    [Fact]
    public void The_kinds_are_told_apart_by_what_they_work() =>
        Assert.Equal(
            [("single cells", Head.A, 3), ("diagonal rows", Head.A, 1), ("patches", Head.B, 1), ("rows", Head.A, 1), ("the end", null, 1)],
            PlanCosts.Of(Planner.Plan(Shapes.Text("A.A..A..BB\n.......ABB\nAAA...A...\n.....A...."), Machines.Desktop))
                .Select(cost => (cost.Feature, cost.Head, cost.Records)));
}

using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class PlanAdviceTests
{
    private const double Quick = 0.01;

    [Fact]
    public void A_job_that_fits_needs_no_advice() => Assert.Empty(PlanAdvice.For(Shapes.Text("A"), Machines.Desktop));

    [Fact]
    public void What_would_help_is_told_with_its_bytes()
    {
        var shape = Shapes.Text("AA.A\n---\nABAB\n---\nAAAA");
        var advice = PlanAdvice.For(shape, Machines.Make(RecordWidth.Four, 16, 16, 3, 12));
        Assert.Equal("A store of at least 21 bytes would hold it (full to its last record it needs no end); this one holds 12.", advice[0]);
        Assert.Superset(
            new HashSet<string>
            {
                "A store of at least 21 bytes would hold it (full to its last record it needs no end); this one holds 12.",
                "The lowest layer alone: 9 bytes, which fits.",
                "Worked by head a alone: 12 bytes, which fits.",
                "Without the cells that stand alone on their layer: 12 bytes, which fits.",
                "Laid on its near side: 21 bytes, which is shorter but still too long.",
            },
            advice.ToHashSet());
    }

    [Fact]
    public void A_change_that_helps_too_little_is_told_as_such() =>
        Assert.Contains("Worked by head a alone: 12 bytes, which is shorter but still too long.",
            PlanAdvice.For(Shapes.Text("A.ABA.A"), Machines.Make(RecordWidth.Four, 16, 16, 3, 6)));

    [Fact]
    public void A_change_that_does_not_suit_the_machine_is_not_advised() =>
        Assert.DoesNotContain(PlanAdvice.For(Shapes.Text("A.A.A"), Machines.Make(RecordWidth.Four, 16, 1, 1, 6)),
            advice => advice.StartsWith("Turned", StringComparison.Ordinal));

    [Fact]
    public void Empty_layers_alone_are_not_advised()
    {
        var machine = Machines.Make(RecordWidth.Four, 16, 1, 2, 6);
        var advice = PlanAdvice.For(Shapes.Text("---\nAA.AA.AA"), machine, new FitLimits { AddSupport = false });
        Assert.Equal("A store of at least 9 bytes would hold it (full to its last record it needs no end); this one holds 6.", advice[0]);
        Assert.DoesNotContain(advice, sentence => sentence.StartsWith("The lowest", StringComparison.Ordinal));
    }

    [Fact]
    public void The_store_that_is_asked_for_is_the_smallest_that_holds_the_job() =>
        Shapes.Random(12, 12, 3).Where(shape => !shape.IsEmptyEverywhere).Sample(shape =>
        {
            var needed = (int)Planner.Plan(shape, Stored(1 << 20), Quick).ImageBytes - 3;
            Assert.True(Planner.Plan(shape, Stored(needed), Quick).Fits);
            var advice = PlanAdvice.For(shape, Stored(needed - 1), new FitLimits { AddSupport = false }, effort: Quick);
            Assert.StartsWith($"A store of at least {needed} bytes", advice[0]);
        }, seed: "0000advice01", iter: 50);

    private static Machine Stored(int bytes) => Machines.Make(RecordWidth.Four, 16, 16, 16, bytes);
}

namespace Bridge.History.Tests;

public sealed class RunComparisonTests : IDisposable
{
    private readonly PastRuns _runs = new();

    public void Dispose() => _runs.Dispose();

    [Fact]
    public void Two_runs_that_are_alike_differ_in_nothing()
    {
        var found = RunComparison.Of(PastRun.Read(_runs.Run().Path), PastRun.Read(_runs.Run().Path));
        Assert.Empty(found.Differences);
        Assert.Equal(0, found.CellsNotTheSame);
        Assert.Equal(found.OneSeconds!.Value, found.OtherSeconds!.Value, 1e-9);
        Assert.False(found.Test!.IsMoreThanNoise);
    }

    [Fact]
    public void A_run_that_was_stopped_differs_first_where_it_was_stopped_and_in_the_cells_that_it_left()
    {
        var (whole, stopped) = (PastRun.Read(_runs.Run().Path), PastRun.Read(_runs.Run("estop-at=20").Path));
        var found = RunComparison.Of(whole, stopped);
        Assert.StartsWith("course", found.Differences[0].What);
        Assert.Contains("e-stop", found.Differences[0].Other);
        Assert.Equal(PastRuns.CellsLeft(done: stopped.Summary!.WorkedByA + stopped.Summary.WorkedByB), found.CellsNotTheSame);
        Assert.Contains(found.Differences, difference => difference is { What: "end", One: "Complete", Other: "Aborted" });
    }

    [Fact]
    public void Steps_that_one_of_them_lost_are_told()
    {
        var found = RunComparison.Of(PastRun.Read(_runs.Run().Path), PastRun.Read(_runs.Run("skip=x:5:-12").Path));
        var lost = Assert.Single(found.Differences, difference => difference.What == "steps lost");
        Assert.Equal(("X 0, Y 0", "X 12, Y 0"), (lost.One, lost.Other));
    }
}

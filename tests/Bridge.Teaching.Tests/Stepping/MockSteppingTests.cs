using Bridge.Jobs;

namespace Bridge.Teaching.Tests;

public sealed class MockSteppingTests : IDisposable
{
    private readonly MockStepping _mock = new(TestJobs.Gantry, seed: 1);
    private readonly Stepper _stepper = new(TestJobs.RowAndPatch.Image, TestJobs.Gantry.Grid);

    public void Dispose() => _mock.Dispose();

    [Fact]
    public async Task The_mock_device_works_each_step_where_the_job_has_it()
    {
        Assert.True(await _mock.BeginAsync());
        await Follow(_stepper.Cell());
        Assert.Contains("(1, 2) on layer 0, head a; its gantry worked 1 cell, each where the job has it", _mock.Told);
        await Follow(_stepper.Record());
        await Follow(_stepper.Cell());
        await Follow(_stepper.Record());
        Assert.Contains("(13, 3) on layer 1, head b; its gantry worked 13 cells, each where the job has it", _mock.Told);
    }

    [Fact]
    public async Task Back_is_a_device_that_stands_there_and_has_worked_no_more()
    {
        Assert.True(await _mock.BeginAsync());
        while (_stepper.Record() is { } done)
            await Follow(done);
        foreach (var (ticks, at) in new[] { (11, "(12, 2) on layer 1, head b"), (3, "(3, 2) on layer 0, head a"), (0, "(0, 0) on layer 0, head a") })
        {
            _stepper.BackToTicks(ticks);
            Assert.Empty(_mock.PlanBack(_stepper.Stop.Position));
            Assert.True(await _mock.BackAsync(_stepper.Stop.Position, ticks), _mock.Trouble);
            Assert.Contains($"{at}; its gantry worked {ticks} cells", _mock.Told);
        }

        while (_stepper.Record() is { } done)
            await Follow(done);
        Assert.Contains("worked 13 cells, each where", _mock.Told);
    }

    [Fact]
    public async Task Where_a_cell_may_be_worked_only_once_it_is_passed_over_after_a_jump_back()
    {
        Assert.True(await _mock.BeginAsync());
        await Follow(_stepper.Record());
        Assert.True(_stepper.TryJump(0));
        await Follow(_stepper.Record());
        Assert.Contains("(5, 2) on layer 0, head a; its gantry worked 5 cells, each where", _mock.Told);
    }

    [Fact]
    public async Task A_wait_for_the_operator_is_gone_on_from_by_who_steps()
    {
        var job = TestJobs.Of(TestJobs.Gantry, Record.WaitForOperator(), Record.Row(RecordWidth.Four, Head.A, new Cell(1, 1), 0, 2), Record.End);
        var stepper = new Stepper(job.Image, job.Grid);
        Assert.True(await _mock.BeginAsync());
        while (stepper.Record() is { } done)
            Assert.True(await _mock.FollowAsync(done, stepper.Ticks), _mock.Trouble);
        Assert.Contains("worked 2 cells", _mock.Told);
    }

    private async Task Follow(StepDone? done) => Assert.True(await _mock.FollowAsync(done!.Value, _stepper.Ticks), _mock.Trouble);
}

using Bridge.Wire;

namespace Bridge.History.Tests;

public sealed class ReplayTests : IDisposable
{
    private readonly PastRuns _runs = new();

    public void Dispose() => _runs.Dispose();

    [Fact]
    public void At_its_end_a_replay_shows_what_the_run_worked()
    {
        var run = PastRun.Read(_runs.Run("estop-at=20").Path);
        var replay = new Replay(run);
        replay.GoTo(double.MaxValue);
        Assert.Equal(MachineState.Aborted, replay.State);
        Assert.Equal((run.Summary!.WorkedByA, run.Summary.WorkedByB), replay.Worked!.Counts);
        Assert.Equal(run.Summary.Seconds, replay.Length, 0.01);
    }

    [Fact]
    public void A_moment_is_the_same_whether_it_is_come_to_from_before_or_from_after()
    {
        var run = PastRun.Read(_runs.Run().Path);
        var (forward, back) = (new Replay(run), new Replay(run));
        for (var seconds = 0.0; seconds < forward.Length; seconds += 0.7)
        {
            forward.GoTo(seconds);
            back.GoTo(double.MaxValue);
            back.GoTo(seconds);
            Assert.Equal((forward.State, forward.Place, forward.Position, forward.Worked!.Counts),
                (back.State, back.Place, back.Position, back.Worked!.Counts));
            Assert.Equal(0, forward.Worked.CountDifferences(back.Worked));
        }
    }

    [Fact]
    public void A_layer_in_letters_shrinks_to_the_room_there_is()
    {
        var replay = new Replay(PastRun.Read(_runs.Run().Path));
        replay.GoTo(double.MaxValue);
        var whole = CellText.Of(replay.Worked!, 0, 64, 64);
        Assert.Equal((16, 16), (whole.Count, whole[0].Length));
        Assert.Equal(replay.Worked!.Counts.A, whole.Sum(line => line.Count(letter => letter is 'A' or '*')));
        Assert.Equal((4, 4), (CellText.Of(replay.Worked, 0, 4, 64).Count, CellText.Of(replay.Worked, 0, 4, 64)[0].Length));
    }

    [Fact]
    public void The_times_of_a_run_on_a_mock_are_those_that_were_predicted()
    {
        var times = JobTimes.Of(PastRun.Read(_runs.Run().Path))!;
        Assert.Equal(times.Records, times.Done);
        Assert.Equal(times.PredictedSeconds, times.MeasuredSeconds, 0.3);
        Assert.Equal(times.MeasuredSeconds, LayerTime.Of(times).Sum(layer => layer.MeasuredSeconds), 1e-9);
        Assert.All(Enumerable.Range(0, times.Done), record => Assert.InRange(times.Measured(record), 0, times.Predicted(record) + 1));
    }

    [Fact]
    public void A_run_without_its_job_is_played_back_without_its_cells()
    {
        var folder = _runs.Run();
        File.WriteAllText(folder.JobFile, "another");
        var run = PastRun.Read(folder.Path);
        var replay = new Replay(run);
        replay.GoTo(double.MaxValue);
        Assert.Equal((null, null, MachineState.Complete), (run.Job, replay.Worked, replay.State));
        Assert.NotEmpty(StateSpan.Of(run));
        Assert.Null(JobTimes.Of(run));
    }
}

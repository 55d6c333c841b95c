using System.Text.Json;
using Bridge.Serial.Tests;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class RunLogTests
{
    [LinuxFact]
    public void A_log_without_room_fails_quietly_and_passes_on_what_it_is_told()
    {
        var onlooker = new Onlooker();
        using (var log = new RunLog("/dev/full", onlooker)) // every write there finds no room
            log.Told("the machine holds");
        Assert.Contains("the machine holds", onlooker.Words);
    }

    [Theory]
    [InlineData(MachineState.Aborted, StateCause.EStop, "Warning")]
    [InlineData(MachineState.Aborted, StateCause.PowerOn, null)] // as every board is before its first run
    [InlineData(MachineState.Aborted, StateCause.None, null)]
    [InlineData(MachineState.Held, StateCause.EStop, null)]
    public void A_change_of_state_is_logged_with_where_the_run_stands_and_an_abort_as_a_warning(MachineState state, StateCause cause, string? level)
    {
        var entry = Assert.Single(Logged(new Onlooker(), log => log.StateChanged(new RunProgress(state, cause, 3, 11, 17, 2, 5, 6,
            TimeSpan.FromSeconds(1.5)))));
        Assert.Equal(level, entry.TryGetProperty("@l", out var found) ? found.GetString() : null);
        Assert.StartsWith("State {State} because {Cause} at {Seconds} s, record {Records} of {RecordsInAll}", entry.GetProperty("@mt").GetString());
        Assert.Equal((state.ToString(), cause.ToString()), (entry.GetProperty("State").GetString(), entry.GetProperty("Cause").GetString()));
        Assert.Equal((1.5, 3, 11), (entry.GetProperty("Seconds").GetDouble(), entry.GetProperty("Records").GetInt32(),
            entry.GetProperty("RecordsInAll").GetInt32()));
        Assert.Equal((5, 6, 2), (entry.GetProperty("X").GetInt32(), entry.GetProperty("Y").GetInt32(), entry.GetProperty("Layer").GetInt32()));
    }

    [Fact]
    public void What_is_told_is_a_warning_and_progress_is_passed_on_without_a_line()
    {
        var onlooker = new Onlooker();
        var entry = Assert.Single(Logged(onlooker, log =>
        {
            log.Progressed(default(RunProgress) with { Records = 5 });
            log.Told("the machine holds");
        }));
        Assert.Equal(("Warning", "the machine holds", "Told {Words}"),
            (entry.GetProperty("@l").GetString(), entry.GetProperty("Words").GetString(), entry.GetProperty("@mt").GetString()));
        Assert.Equal(["the machine holds"], onlooker.Words);
        Assert.Equal([5], onlooker.Progress.Select(progress => progress.Records));
    }

    [Fact]
    public void A_watcher_that_cannot_be_told_is_logged_with_the_reason_and_no_other_trouble_is_swallowed()
    {
        var entries = Logged(new Onlooker { OnState = _ => throw new IOException("Broken pipe") }, log => log.StateChanged(default));
        Assert.Equal(2, entries.Count);
        Assert.Equal(("Warning", "Broken pipe", "The watcher cannot be told: {Why}"),
            (entries[1].GetProperty("@l").GetString(), entries[1].GetProperty("Why").GetString(), entries[1].GetProperty("@mt").GetString()));
        Assert.Throws<InvalidOperationException>(() =>
            Logged(new Onlooker { OnState = _ => throw new InvalidOperationException() }, log => log.StateChanged(default)));
    }

    [Fact]
    public void The_end_is_logged_with_its_words_and_the_links_counts()
    {
        using var rig = Rig.OfSmallJob();
        var end = rig.ToEnd();
        var entry = Assert.Single(Logged(new Onlooker(), log => log.Ended(end, rig.Run)));
        Assert.StartsWith("Ended {Outcome}: {Words}", entry.GetProperty("@mt").GetString());
        Assert.Equal(("Complete", end.Words, rig.Run.Received.Good), (entry.GetProperty("Outcome").GetString(), entry.GetProperty("Words").GetString(),
            entry.GetProperty("Good").GetInt64()));
        Assert.Equal((0, 0), (entry.GetProperty("Retransmissions").GetInt32(), entry.GetProperty("BadFcs").GetInt32()));
    }

    [Fact]
    public void A_long_run_has_room_for_its_lines() => Assert.Equal(2000, Logged(new Onlooker(), log =>
    {
        for (var line = 0; line < 2000; line++)
            log.Told("the machine holds");
    }).Count);

    private static List<JsonElement> Logged(IRunWatcher next, Action<RunLog> act)
    {
        using var folder = new TemporaryFolder();
        using (var log = new RunLog(folder.In("events.clef"), next))
            act(log);
        return [.. File.ReadLines(folder.In("events.clef")).Select(line => JsonSerializer.Deserialize<JsonElement>(line))];
    }
}

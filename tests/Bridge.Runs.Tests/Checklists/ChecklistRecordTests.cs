using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public sealed class ChecklistRecordTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.FromHours(2));

    private readonly TemporaryFolder _runs = new();

    private static ChecklistRecord Whole { get; } = new()
    {
        Machine = "Plotter", Device = "/dev/ttyACM0", List = "11aa", Operator = "Ada", At = Noon, IsWhole = true, EStopTried = Noon,
        Answers = [new ChecklistAnswer("bed", "Is the bed clear?", Noon)],
    };

    public void Dispose() => _runs.Dispose();

    [Fact]
    public void What_was_looked_over_as_a_whole_counts_for_the_day_the_machine_and_the_device()
    {
        Save("one", Whole);
        Assert.True(WasWhole("Plotter", "/dev/ttyACM0", Noon.AddHours(11)));
        Assert.False(WasWhole("Plotter", "/dev/ttyACM0", Noon.AddHours(12))); // midnight at the operator's place
        Assert.False(WasWhole("Plotter", "/dev/ttyACM0", Noon.AddHours(-1))); // a clock that was put back
        Assert.False(WasWhole("Gantry", "/dev/ttyACM0", Noon));
        Assert.False(WasWhole("Plotter", "/dev/ttyACM1", Noon));
        Assert.False(WasWhole("Plotter", "/dev/ttyACM0", Noon, list: "22bb")); // a list that was changed
        Assert.True(ChecklistRecord.WasEStopTriedToday(_runs.Path, "Plotter", "/dev/ttyACM0", Noon.AddHours(1)));
    }

    [Fact]
    public void A_short_one_and_one_that_nobody_answered_vouch_for_nothing()
    {
        Save("short", Whole with { IsWhole = false, EStopTried = null });
        Save("nobody", Whole with { Operator = null, EStopTried = null });
        Assert.False(WasWhole("Plotter", "/dev/ttyACM0", Noon));
        Assert.False(ChecklistRecord.WasEStopTriedToday(_runs.Path, "Plotter", "/dev/ttyACM0", Noon));
    }

    [Fact]
    public void A_record_that_cannot_be_read_vouches_for_nothing()
    {
        Save("broken", Whole);
        var path = Path.Combine(_runs.In("broken"), ChecklistRecord.FileName);
        var text = File.ReadAllText(path);
        string[] all = ["", "{", "null", "[1]", text[..^20], text.Replace("\"format\": 1", "\"format\": 2"), text.Replace("\"machine\"", "\"apparatus\"")];
        foreach (var broken in all)
        {
            File.WriteAllText(path, broken);
            Assert.False(WasWhole("Plotter", "/dev/ttyACM0", Noon));
        }

        Assert.False(ChecklistRecord.WasWholeToday(_runs.In("no-such-folder"), "Plotter", "/dev/ttyACM0", "11aa", Noon));
    }

    [Fact]
    public void A_second_record_of_a_run_stands_beside_the_first()
    {
        Save("run", Whole);
        (Whole with { Operator = "Grace" }).Save(_runs.In("run"));
        Assert.Equal(2, Directory.GetFiles(_runs.In("run")).Length);
        Assert.Contains("Ada", File.ReadAllText(Path.Combine(_runs.In("run"), ChecklistRecord.FileName)));
    }

    [Fact]
    public void A_record_that_has_no_room_is_refused_with_what_to_do() => Assert.Contains("Nothing was started",
        Assert.Throws<RefusedException>(() => Whole.Save(_runs.In("no-such-run"))).Message);

    private bool WasWhole(string machine, string device, DateTimeOffset now, string list = "11aa") =>
        ChecklistRecord.WasWholeToday(_runs.Path, machine, device, list, now);

    private void Save(string run, ChecklistRecord record)
    {
        Directory.CreateDirectory(_runs.In(run));
        record.Save(_runs.In(run));
    }
}

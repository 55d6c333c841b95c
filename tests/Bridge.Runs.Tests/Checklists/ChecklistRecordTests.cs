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

    [Fact]
    public void A_refused_record_names_its_file_and_says_to_choose_another_folder()
    {
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => Whole.Save(_runs.In("no-such-run"))).Refusals);
        Assert.EndsWith("checklist.json", refusal.Place);
        Assert.StartsWith("a file that cannot be written (", refusal.Found);
        Assert.Equal("a folder with room that may be written", refusal.Allowed);
        Assert.Contains("--runs", refusal.Action);
    }

    [Fact]
    public void Records_of_a_run_are_read_back_whole_in_the_order_of_its_parts_up_to_a_gap()
    {
        Directory.CreateDirectory(_runs.In("run"));
        Assert.Empty(ChecklistRecord.ReadAll(_runs.In("run")));
        foreach (var name in new[] { "Ada", "Grace", "Mary", "Joan" })
            (Whole with { Operator = name }).Save(_runs.In("run"));
        Assert.Equal(["checklist-2.json", "checklist-3.json", "checklist-4.json", "checklist.json"],
            Directory.GetFiles(_runs.In("run")).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        var all = ChecklistRecord.ReadAll(_runs.In("run"));
        Assert.Equal(["Ada", "Grace", "Mary", "Joan"], all.Select(record => record.Operator));
        Assert.Equal(Whole with { Answers = all[0].Answers }, all[0]);
        Assert.Equal(Whole.Answers, all[0].Answers);
        File.WriteAllText(Path.Combine(_runs.In("run"), "checklist-2.json"), "{");
        Assert.Equal(["Ada", "Mary", "Joan"], ChecklistRecord.ReadAll(_runs.In("run")).Select(record => record.Operator));
        File.Delete(Path.Combine(_runs.In("run"), "checklist-3.json"));
        Assert.Equal(["Ada"], ChecklistRecord.ReadAll(_runs.In("run")).Select(record => record.Operator));
    }

    [Fact]
    public void A_record_is_a_page_of_JSON_that_a_person_can_read_and_leaves_out_what_was_not_done()
    {
        Save("run", Whole with { Operator = null, EStopTried = null });
        var text = File.ReadAllText(Path.Combine(_runs.In("run"), ChecklistRecord.FileName));
        Assert.Contains("\n  \"machine\": \"Plotter\"", text.Replace("\r", ""));
        Assert.Contains("\"isWhole\": true", text);
        Assert.DoesNotContain("operator", text);
        Assert.DoesNotContain("eStopTried", text);
    }

    [Fact]
    public void A_record_from_a_day_at_another_offset_counts_for_the_day_at_the_operators_place()
    {
        Save("one", Whole with { At = new DateTimeOffset(2026, 5, 3, 23, 30, 0, TimeSpan.Zero) }); // half past one on the 4th at the place
        Assert.True(WasWhole("Plotter", "/dev/ttyACM0", Noon));
        Assert.True(WasWhole("Plotter", "/dev/ttyACM0", new DateTimeOffset(2026, 5, 4, 1, 30, 0, TimeSpan.FromHours(2)))); // that very moment
    }

    [Fact]
    public void One_good_record_among_others_is_enough_for_each_question_by_itself()
    {
        Save("1-whole", Whole with { EStopTried = null });
        Save("2-tried", Whole with { IsWhole = false });
        Save("3-other", Whole with { Machine = "Gantry" });
        Assert.True(WasWhole("Plotter", "/dev/ttyACM0", Noon));
        Assert.True(ChecklistRecord.WasEStopTriedToday(_runs.Path, "Plotter", "/dev/ttyACM0", Noon));
        Assert.False(ChecklistRecord.WasEStopTriedToday(_runs.Path, "Plotter", "/dev/ttyACM1", Noon));
    }

    [Fact]
    public void A_record_that_is_larger_than_any_of_ours_vouches_for_nothing()
    {
        Save("run", Whole);
        var path = Path.Combine(_runs.In("run"), ChecklistRecord.FileName);
        var text = File.ReadAllText(path);
        File.WriteAllText(path, text.PadRight(262_144));
        Assert.True(WasWhole("Plotter", "/dev/ttyACM0", Noon));
        File.WriteAllText(path, text.PadRight(262_145));
        Assert.False(WasWhole("Plotter", "/dev/ttyACM0", Noon));
    }

    private bool WasWhole(string machine, string device, DateTimeOffset now, string list = "11aa") =>
        ChecklistRecord.WasWholeToday(_runs.Path, machine, device, list, now);

    private void Save(string run, ChecklistRecord record)
    {
        Directory.CreateDirectory(_runs.In(run));
        record.Save(_runs.In(run));
    }
}

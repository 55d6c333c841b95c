namespace Bridge.Jobs.Tests;

public sealed class MachineFileCheckTests
{
    [Theory]
    [InlineData(4, 16, true)]
    [InlineData(4, 17, false)]
    [InlineData(8, 256, true)]
    [InlineData(8, 257, false)]
    [InlineData(12, 4096, true)]
    public void Cells_along_X_fit_the_bits_of_an_axis(int bits, int cells, bool fits)
    {
        var text = Change("axis_bits = 4", $"axis_bits = {bits}").Replace("reference_speed_mm_s = 10", "reference_speed_mm_s = 60", StringComparison.Ordinal)
            .Replace("[link]", "[timeouts]\nreference_seconds = 600\n[link]", StringComparison.Ordinal)
            .Replace("[axes.x]\ncells = 16", $"[axes.x]\ncells = {cells}", StringComparison.Ordinal);

        ReadsOrNames(text, fits, "m.toml:8:9 axes.x.cells", $"1 to {1 << bits} cells with axis_bits = {bits}");
    }

    [Theory]
    [InlineData("repeat_readings = 0", true)]
    [InlineData("repeat_readings = 2", true)]
    [InlineData("repeat_readings = 1000\nrepeat_mean_mm = -10\nrepeat_deviation_mm = 10.0", true)]
    [InlineData("repeat_readings = 1", false)]
    [InlineData("repeat_deviation_mm = 0.01", false)]
    [InlineData("repeat_readings = 1\nrepeat_mean_mm = 0.01", false)]
    public void How_well_a_zero_is_found_was_read_at_least_twice(string lines, bool isGood)
    {
        var text = Change("[axes.y]", $"{lines}\n[axes.y]");
        if (isGood)
        {
            MachineFileMistakeTests.Parse(text);
            return;
        }

        var refused = Assert.Throws<RefusedException>(() => MachineFileMistakeTests.Parse(text));
        Assert.Contains("axes.x.repeat_readings: found", $"{Assert.Single(refused.Refusals)}");
        Assert.Contains("2 or more", refused.Refusals[0].Allowed);
    }

    [Theory]
    [InlineData("repeat_readings = 1001")]
    [InlineData("repeat_readings = 5.0")]
    [InlineData("repeat_readings = 5\nrepeat_deviation_mm = -0.1")]
    [InlineData("repeat_readings = 5\nrepeat_mean_mm = 10.5")]
    public void What_cannot_be_read_of_a_zero_is_refused(string lines) =>
        Assert.Throws<RefusedException>(() => MachineFileMistakeTests.Parse(Change("[axes.y]", $"{lines}\n[axes.y]")));

    [Fact]
    public void Layers_are_not_bound_by_the_bits_of_an_axis()
    {
        const string z = "[axes.z]\ncells = 100\npitch_mm = 0.5\nsteps_per_mm = 400\ntop_speed_mm_s = 10\naccel_mm_s2 = 50\n"
            + "endstop = \"min\"\nendstop_gap_mm = 1\n";

        var text = Change("[heads.a]", z + "[heads.a]");

        Assert.Equal(new Grid(16, 16, 100), MachineFileMistakeTests.Parse(text).Grid);
    }

    [Theory]
    [InlineData(4, 3, true)]
    [InlineData(8, 4, false)]
    [InlineData(8, 5, true)]
    [InlineData(12, 6, false)]
    [InlineData(12, 7, true)]
    public void The_store_holds_a_record(int bits, int store, bool holds)
    {
        var text = Change("axis_bits = 4\nstore_bytes = 256", $"axis_bits = {bits}\nstore_bytes = {store}");

        ReadsOrNames(text, holds, "m.toml:4:15 store_bytes", "one record");
    }

    [Theory]
    [InlineData("0.01", "100", true)]
    [InlineData("0.01", "99", false)]
    [InlineData("1", "65535", true)]
    [InlineData("1", "65535.1", false)]
    [InlineData("10", "6554", false)]
    public void A_cell_takes_1_to_65535_steps(string pitch, string steps, bool fits)
    {
        var text = Change("pitch_mm = 5\nsteps_per_mm = 80", $"pitch_mm = {pitch}\nsteps_per_mm = {steps}");

        ReadsOrNames(text, fits, "m.toml:10:16 axes.x.steps_per_mm", "1 to 65535 steps for a cell");
    }

    [Theory]
    [InlineData("60", true)]
    [InlineData("60.1", false)]
    public void An_axis_looks_for_its_endstop_no_faster_than_it_moves(string speed, bool fits)
    {
        var text = Change("reference_speed_mm_s = 10", $"reference_speed_mm_s = {speed}");

        ReadsOrNames(text, fits, "m.toml:16:24 axes.x.reference_speed_mm_s", "at most 60 mm/s");
    }

    // X has its endstop at the low end and Y at the high end, each 4 mm from the nearest cell.
    [Theory]
    [InlineData("3.9, 0", true, "")]
    [InlineData("4, 0", false, "below 4 mm along X")]
    [InlineData("-300, 0", true, "")]
    [InlineData("0, -3.9", true, "")]
    [InlineData("0, -4", false, "above -4 mm along Y")]
    [InlineData("0, 300", true, "")]
    public void A_head_s_offset_keeps_the_carriage_off_the_endstop(string offset, bool clear, string allowed)
    {
        var text = Change("offset_mm = [0, 0]", $"offset_mm = [{offset}]");

        ReadsOrNames(text, clear, "m.toml:29:13 heads.a.offset_mm", allowed);
    }

    [Fact]
    public void A_pen_has_no_time_for_each_cell()
    {
        var refusal = Assert.Single(MachineFileMistakeTests.Refusals(Change("offset_mm = [0, 0]", "seconds_per_cell = 1")));

        Assert.Equal("m.toml:29:1 heads.a.seconds_per_cell", refusal.Place);
        Assert.Contains("a pen does not stop at each cell", refusal.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void A_dot_head_is_neither_lowered_nor_lifted_and_needs_its_time()
    {
        var refusals = MachineFileMistakeTests.Refusals(Change("kind = \"pen\"", "kind = \"dot\""));

        Assert.Equal(
            ["m.toml:25:2 heads.a.seconds_per_cell", "m.toml:27:1 heads.a.lower_seconds", "m.toml:28:1 heads.a.lift_seconds"],
            refusals.Select(r => r.Place));
    }

    [Theory]
    [InlineData("answer_seconds = 0.05")]
    [InlineData("answer_seconds = 61")]
    [InlineData("line_silence_seconds = 11")]
    [InlineData("line_silence_seconds = 0")]
    [InlineData("reference_seconds = 0.5")]
    [InlineData("reference_seconds = 601")]
    public void A_time_out_beyond_its_range_is_refused(string line)
    {
        var refusal = Assert.Single(MachineFileMistakeTests.Refusals(Change("[link]", $"[timeouts]\n{line}\n[link]")));

        Assert.StartsWith("m.toml:31:", refusal.Place, StringComparison.Ordinal);
    }

    // Y is 16 cells of 5 mm and 4 mm to its endstop, looked for at a tenth of its top speed, 6 mm/s.
    [Theory]
    [InlineData("14", true)]
    [InlineData("13.9", false)]
    public void An_axis_has_time_to_find_its_endstop_from_the_far_end(string seconds, bool enough)
    {
        var text = Change("[link]", $"[timeouts]\nreference_seconds = {seconds}\n[link]");

        ReadsOrNames(text, enough, "m.toml:31:21 timeouts.reference_seconds", "at least 14 s, which axes.y needs");
    }

    private static string Change(string sound, string changed) => MachineFileMistakeTests.Change(sound, changed);

    private static void ReadsOrNames(string text, bool good, string place, string allowed)
    {
        if (good)
        {
            Assert.Equal("Sound", MachineFileMistakeTests.Parse(text).Name);
            return;
        }

        var refusal = Assert.Single(MachineFileMistakeTests.Refusals(text));
        Assert.Equal(place, refusal.Place);
        Assert.Contains(allowed, refusal.Allowed, StringComparison.Ordinal);
    }
}

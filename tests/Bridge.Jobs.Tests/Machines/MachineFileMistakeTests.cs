using System.Text;

namespace Bridge.Jobs.Tests;

public sealed class MachineFileMistakeTests
{
    // Line 1 is format, line 7 is [axes.x]; no Z, no second head, no time-outs.
    private const string Sound =
        """
        format = 1
        name = "Sound"
        axis_bits = 4
        store_bytes = 256
        overprint = "allow"
        overhang_cells = 0
        [axes.x]
        cells = 16
        pitch_mm = 5
        steps_per_mm = 80
        top_speed_mm_s = 60
        accel_mm_s2 = 400
        endstop = "min"
        endstop_gap_mm = 4
        backlash_mm = 0
        reference_speed_mm_s = 10
        [axes.y]
        cells = 16
        pitch_mm = 5
        steps_per_mm = 80
        top_speed_mm_s = 60
        accel_mm_s2 = 400
        endstop = "max"
        endstop_gap_mm = 4
        [heads.a]
        kind = "pen"
        lower_seconds = 0.1
        lift_seconds = 0.1
        offset_mm = [0, 0]
        [link]
        baud = 500000

        """;

    [Fact]
    public void The_sound_file_is_read() => Assert.Equal("Sound", Parse(Sound).Name);

    [Theory]
    [InlineData("format = 1", "format = 2", "m.toml:1:10 format", "2", "1")]
    [InlineData("format = 1", "format = \"1\"", "m.toml:1:10 format", "\"1\"", "1")]
    [InlineData("name = \"Sound\"", "name = \"\"", "m.toml:2:8 name", "\"\"", "text, 1 to 64 characters that show")]
    [InlineData("name = \"Sound\"", "name = \" a\"", "m.toml:2:8 name", "\" a\"", "no space at its ends")]
    [InlineData("name = \"Sound\"", "name = \"a\\u0007\"", "m.toml:2:8 name", "\"a\\u0007\"", "characters that show")]
    [InlineData("name = \"Sound\"", "name = \"a\\u202Eb\"", "m.toml:2:8 name", "\"a\\u202Eb\"", "characters that show")]
    [InlineData("name = \"Sound\"", "name = 5", "m.toml:2:8 name", "5", "text")]
    [InlineData("axis_bits = 4", "axis_bits = 5", "m.toml:3:13 axis_bits", "5", "4, 8 or 12")]
    [InlineData("axis_bits = 4", "axis_bits = 4.0", "m.toml:3:13 axis_bits", "4.0", "4, 8 or 12")]
    [InlineData("store_bytes = 256", "store_bytes = 2", "m.toml:4:15 store_bytes", "2", "integer, 3 to 16777216 bytes")]
    [InlineData("store_bytes = 256", "store_bytes = 16777217", "m.toml:4:15 store_bytes", "16777217", "integer, 3 to 16777216 bytes")]
    [InlineData("store_bytes = 256", "store_bytes = 256.0", "m.toml:4:15 store_bytes", "256.0", "integer")]
    [InlineData("overprint = \"allow\"", "overprint = true", "m.toml:5:13 overprint", "true", "\"allow\" or \"forbid\"")]
    [InlineData("overhang_cells = 0", "overhang_cells = 2", "m.toml:6:18 overhang_cells", "2", "integer, 0 to 1 cells")]
    [InlineData("cells = 16\n", "cells = 0\n", "m.toml:8:9 axes.x.cells", "0", "integer, 1 to 4096 cells")]
    [InlineData("cells = 16\n", "cells = -1\n", "m.toml:8:9 axes.x.cells", "-1", "integer, 1 to 4096 cells")]
    [InlineData("cells = 16\n", "cells = 16.0\n", "m.toml:8:9 axes.x.cells", "16.0", "integer, 1 to 4096 cells")]
    [InlineData("pitch_mm = 5", "pitch_mm = 0.009", "m.toml:9:12 axes.x.pitch_mm", "0.009", "number, 0.01 to 1000 mm")]
    [InlineData("pitch_mm = 5", "pitch_mm = nan", "m.toml:9:12 axes.x.pitch_mm", "nan", "number, 0.01 to 1000 mm")]
    [InlineData("pitch_mm = 5", "pitch_mm = inf", "m.toml:9:12 axes.x.pitch_mm", "inf", "number, 0.01 to 1000 mm")]
    [InlineData("pitch_mm = 5", "pitch_mm = 1e999", "m.toml:9:12 axes.x.pitch_mm", "inf", "number, 0.01 to 1000 mm")]
    [InlineData("pitch_mm = 5", "pitch_mm = \"5\"", "m.toml:9:12 axes.x.pitch_mm", "\"5\"", "number")]
    [InlineData("pitch_mm = 5", "pitch_mm = 1979-05-27", "m.toml:9:12 axes.x.pitch_mm", "a date or a time", "number")]
    [InlineData("steps_per_mm = 80", "steps_per_mm = 100001", "m.toml:10:16 axes.x.steps_per_mm", "100001", "0.01 to 100000 steps/mm")]
    [InlineData("top_speed_mm_s = 60", "top_speed_mm_s = 0", "m.toml:11:18 axes.x.top_speed_mm_s", "0", "0.01 to 10000 mm/s")]
    [InlineData("accel_mm_s2 = 400", "accel_mm_s2 = 0.05", "m.toml:12:15 axes.x.accel_mm_s2", "0.05", "0.1 to 1000000 mm/s^2")]
    [InlineData("endstop = \"min\"", "endstop = \"left\"", "m.toml:13:11 axes.x.endstop", "\"left\"", "\"min\" or \"max\"")]
    [InlineData("endstop_gap_mm = 4", "endstop_gap_mm = 0", "m.toml:14:18 axes.x.endstop_gap_mm", "0", "above 0 and at most 1000 mm")]
    [InlineData("backlash_mm = 0", "backlash_mm = -0.1", "m.toml:15:15 axes.x.backlash_mm", "-0.1", "number, 0 to 10 mm")]
    [InlineData("kind = \"pen\"", "kind = \"laser\"", "m.toml:26:8 heads.a.kind", "\"laser\"", "\"dot\" or \"pen\"")]
    [InlineData("lower_seconds = 0.1", "lower_seconds = 61", "m.toml:27:17 heads.a.lower_seconds", "61", "number, 0 to 60 s")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = [0]", "m.toml:29:13 heads.a.offset_mm", "[0]", "[x, y], each -1000 to 1000 mm")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = [0, \"a\"]", "m.toml:29:13 heads.a.offset_mm", "[0, \"a\"]", "[x, y]")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = [0, 0, 0]", "m.toml:29:13 heads.a.offset_mm", "[0, 0, 0]", "[x, y]")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = [-1001, 0]", "m.toml:29:13 heads.a.offset_mm", "[-1001, 0]", "-1000 to 1000 mm")]
    [InlineData("baud = 500000", "baud = 9599", "m.toml:31:8 link.baud", "9599", "integer, 9600 to 1000000 baud")]
    public void A_value_that_is_not_allowed_is_named_with_its_place(string sound, string wrong, string place, string found, string allowed)
    {
        var refusal = Assert.Single(Refusals(Change(sound, wrong)));

        Assert.Equal(place, refusal.Place);
        Assert.Contains(found, refusal.Found, StringComparison.Ordinal);
        Assert.Contains(allowed, refusal.Allowed, StringComparison.Ordinal);
        Assert.NotEmpty(refusal.Action);
    }

    [Theory]
    [InlineData("pitch_mm = 5\n", "pitch = 5\npitch_mm = 5\n", "m.toml:9:1 axes.x.pitch", "Did you mean pitch_mm?")]
    [InlineData("baud = 500000", "baud = 500000\nbuad = 1", "m.toml:32:1 link.buad", "Did you mean baud?")]
    [InlineData("store_bytes = 256", "store_bytes = 256\nbaud = 9600", "m.toml:5:1 baud", "It belongs in [link].")]
    [InlineData("store_bytes = 256", "store_bytes = 256\nqwertyuiop = 9600", "m.toml:5:1 qwertyuiop", "Take it out.")]
    [InlineData("[link]", "[lnik]", "m.toml:30:2 lnik", "Did you mean [link]?")]
    [InlineData("[link]", "[axes.w]", "m.toml:30:2 axes.w", "Did you mean [axes.x]?")]
    [InlineData("[link]", "[colours]", "m.toml:30:2 colours", "Take it out.")]
    [InlineData("[link]\nbaud", "[axes]\nbaud", "m.toml:31:1 axes.baud", "It belongs in [link].")]
    [InlineData("format = 1", "link = 3\nformat = 1", "m.toml:1:1 link", "Write [link] and its keys below it.")]
    public void A_key_or_table_that_is_not_known_is_named_with_the_one_that_was_meant(string sound, string changed, string place, string action)
    {
        Assert.Contains(Refusals(Change(sound, changed)), refusal => refusal.Place == place && refusal.Action == action);
    }

    [Fact]
    public void A_key_of_no_table_is_told_to_go_into_one_even_within_a_group_of_tables() =>
        Assert.Contains(Refusals(Change("[axes.y]", "[axes]\npitch_mm = 5\n[axes.y]")), r => r.Action == "It belongs in [axes.x] or [axes.y] or [axes.z].");

    [Theory]
    [InlineData("format = 1\n", "m.toml:1:1 format")]
    [InlineData("name = \"Sound\"\n", "m.toml:1:1 name")]
    [InlineData("axis_bits = 4\n", "m.toml:1:1 axis_bits")]
    [InlineData("store_bytes = 256\n", "m.toml:1:1 store_bytes")]
    [InlineData("overprint = \"allow\"\n", "m.toml:1:1 overprint")]
    [InlineData("cells = 16\n", "m.toml:7:2 axes.x.cells")]
    [InlineData("pitch_mm = 5\n", "m.toml:7:2 axes.x.pitch_mm")]
    [InlineData("steps_per_mm = 80\n", "m.toml:7:2 axes.x.steps_per_mm")]
    [InlineData("top_speed_mm_s = 60\n", "m.toml:7:2 axes.x.top_speed_mm_s")]
    [InlineData("accel_mm_s2 = 400\n", "m.toml:7:2 axes.x.accel_mm_s2")]
    [InlineData("endstop = \"min\"\n", "m.toml:7:2 axes.x.endstop")]
    [InlineData("endstop_gap_mm = 4\n", "m.toml:7:2 axes.x.endstop_gap_mm")]
    [InlineData("kind = \"pen\"\n", "m.toml:25:2 heads.a.kind")]
    [InlineData("lower_seconds = 0.1\n", "m.toml:25:2 heads.a.lower_seconds")]
    [InlineData("lift_seconds = 0.1\n", "m.toml:25:2 heads.a.lift_seconds")]
    public void A_missing_key_is_named_where_its_table_begins(string line, string place)
    {
        var refusal = Assert.Single(Refusals(Change(line, "")));

        Assert.Equal(place, refusal.Place);
        Assert.Equal("no such key", refusal.Found);
    }

    [Theory]
    [InlineData("overhang_cells = 0\n")]
    [InlineData("backlash_mm = 0\n")]
    [InlineData("reference_speed_mm_s = 10\n")]
    [InlineData("offset_mm = [0, 0]\n")]
    [InlineData("baud = 500000\n")]
    [InlineData("[link]\nbaud = 500000\n")]
    public void A_key_with_a_default_may_be_left_out(string line) => Assert.Equal("Sound", Parse(Change(line, "")).Name);

    [Fact]
    public void A_missing_table_is_named_once() =>
        Assert.Equal(["m.toml:1:1 axes.x", "m.toml:1:1 axes.y", "m.toml:1:1 heads.a"],
            Refusals(Sound[..Sound.IndexOf("[axes.x]", StringComparison.Ordinal)]).Select(r => r.Place));

    [Theory]
    [InlineData("pitch_mm = 5\n", "pitch_mm = 5\npitch_mm = 6\n", "m.toml:10:1 axes.x.pitch_mm", "first on line 9")]
    [InlineData("[link]\n", "[axes.y]\n[link]\n", "m.toml:30:2 axes.y", "first on line 17")]
    [InlineData("[link]\n", "[axes]\ny = {cells = 3}\n[link]\n", "m.toml:31:1 axes.y", "first on line 17")]
    public void What_is_given_twice_is_refused_with_both_places(string sound, string changed, string place, string found)
    {
        Assert.Contains(Refusals(Change(sound, changed)), r => r.Place == place && r.Found.Contains(found, StringComparison.Ordinal));
    }

    [Fact]
    public void A_table_reopened_by_a_dotted_key_is_refused() =>
        Assert.NotEmpty(Refusals(Change("[link]\n", "[axes]\nz.cells = 4\n[axes.z]\n[link]\n")));

    [Fact]
    public void A_list_of_tables_is_refused() =>
        Assert.Equal("a list of tables", Assert.Single(Refusals(Change("[link]", "[[link]]"))).Found);

    [Theory]
    [InlineData("format = 1", "format = = 1", "m.toml:1:10")]
    [InlineData("name = \"Sound\"", "name = \"Sound", "m.toml:2:14")]
    public void Broken_syntax_is_named_with_its_place(string sound, string broken, string place) =>
        Assert.Contains(Refusals(Change(sound, broken)), r => r.Place == place && r.Allowed == "TOML: key = value, [table], or # and a comment");

    [Fact]
    public void A_decimal_comma_is_told_as_one_with_the_number_that_was_meant()
    {
        var told = Assert.Single(Refusals(Change("pitch_mm = 5", "pitch_mm = 4,25  # measured")));
        Assert.Equal(("4,25, with a comma", "4.25, with a point"), (told.Found, told.Allowed));
    }

    [Fact]
    public void A_file_of_another_kind_is_refused_in_a_few_lines()
    {
        var told = Refusals(string.Concat(Enumerable.Repeat("..AAA...AAA..\n", 200)));
        Assert.Equal(11, told.Count);
        Assert.Equal(("m.toml:1:1", "\"..AAA...AAA..\""), (told[0].Place, told[0].Found));
        Assert.Equal(("190 more lines like that", "Check that this is a machine file."), (told[^1].Found, told[^1].Action));
    }

    [Fact]
    public void All_mistakes_are_told_at_once_in_the_order_of_the_file()
    {
        var text = Sound
            .Replace("axis_bits = 4", "axis_bits = 5", StringComparison.Ordinal)
            .Replace("kind = \"pen\"", "kind = \"pem\"", StringComparison.Ordinal)
            .Replace("pitch_mm = 5", "pitch_mm = -5", StringComparison.Ordinal);

        Assert.Equal(
            ["m.toml:3:13 axis_bits", "m.toml:9:12 axes.x.pitch_mm", "m.toml:19:12 axes.y.pitch_mm", "m.toml:26:8 heads.a.kind"],
            Refusals(text).Select(r => r.Place));
    }

    [Fact]
    public void A_flood_of_mistakes_is_cut_and_counted()
    {
        var text = Change("store_bytes = 256\n", "store_bytes = 256\n" + string.Concat(Enumerable.Range(0, 250).Select(i => $"k{i} = 1\n")));

        var refusals = Refusals(text);

        Assert.Equal(101, refusals.Count);
        Assert.Equal("150 more mistakes", refusals[^1].Found);
    }

    [Fact]
    public void The_same_machine_may_be_written_with_inline_tables_and_dotted_keys()
    {
        var text = Change("[link]\nbaud = 500000", "").Replace("format = 1", "format = 1\nlink.baud = 250_000", StringComparison.Ordinal)
            .Replace("[heads.a]\nkind = \"pen\"\nlower_seconds = 0.1\nlift_seconds = 0.1\noffset_mm = [0, 0]",
                "[heads]\na = {kind = \"pen\", lower_seconds = 0.1, lift_seconds = 1}", StringComparison.Ordinal);

        var machine = Parse(text);

        Assert.Equal(250_000, machine.Baud);
        Assert.Equal(new HeadTool.Pen(TimeSpan.FromSeconds(0.1), TimeSpan.FromSeconds(1), 0, 0), machine.A);
    }

    [Fact]
    public void A_quoted_dot_is_no_step_down() =>
        Assert.Contains(Refusals(Change("format = 1", "format = 1\n\"link.baud\" = 9600")), r => r.Place == "m.toml:2:1 \"link.baud\"");

    internal static Machine Parse(string text) => MachineFile.Parse(Encoding.UTF8.GetBytes(text), "m.toml");

    internal static IReadOnlyList<Refusal> Refusals(string text) => Assert.Throws<RefusedException>(() => Parse(text)).Refusals;

    /// <summary>The sound file with the first occurrence of some text changed.</summary>
    internal static string Change(string sound, string changed)
    {
        var at = Sound.IndexOf(sound, StringComparison.Ordinal);
        Assert.True(at >= 0, $"The sound file has no {sound}");
        return string.Concat(Sound.AsSpan(0, at), changed, Sound.AsSpan(at + sound.Length));
    }
}

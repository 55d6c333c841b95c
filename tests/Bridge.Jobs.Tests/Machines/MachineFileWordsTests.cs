namespace Bridge.Jobs.Tests;

/// <summary>Mistakes in a machine file, each told once and in whole sentences.</summary>
public sealed class MachineFileWordsTests
{
    private const string Line = "TOML: key = value, [table], or # and a comment";
    private const string OfAnAxis = "cells, pitch_mm, steps_per_mm, top_speed_mm_s, accel_mm_s2, endstop, endstop_gap_mm, backlash_mm, reference_speed_mm_s, "
        + "repeat_readings, repeat_mean_mm, repeat_deviation_mm";

    [Theory]
    [InlineData("baud = 500000", "baud = 9,5", "m.toml:31:9", "9,5, with a comma", "9.5, with a point", "Write the number with a point.")]
    [InlineData("[link]", "[[link]]", "m.toml:30:3 link", "a list of tables", "one table, [link]", "Write it with single brackets, once.")]
    [InlineData("pitch_mm = 5", "pitch_mm = 5\npitch_mm = 6", "m.toml:10:1 axes.x.pitch_mm", "the same again (first on line 9)", "each table and key once",
        "Keep one of the two.")]
    [InlineData("overprint = \"allow\"", "overprint = false", "m.toml:5:13 overprint", "false", "\"allow\" or \"forbid\"", "Write one of them.")]
    [InlineData("pitch_mm = 5", "pitch_mm = -inf", "m.toml:9:12 axes.x.pitch_mm", "-inf", "number, 0.01 to 1000 mm", "Write a number in the range, in mm.")]
    [InlineData("pitch_mm = 5", "pitch_mm = 0.009", "m.toml:9:12 axes.x.pitch_mm", "0.009", "number, 0.01 to 1000 mm", "Write a number in the range, in mm.")]
    [InlineData("pitch_mm = 5", "pitch_mm = 1e20", "m.toml:9:12 axes.x.pitch_mm", "1E+20", "number, 0.01 to 1000 mm", "Write a number in the range, in mm.")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = [{ a = 1 }, true]", "m.toml:29:13 heads.a.offset_mm", "[a table, true]", "[x, y], each -1000 to 1000 mm",
        "Write two numbers in square brackets, such as [12.5, 0].")]
    [InlineData("backlash_mm = 0", "repeat_readings = 1", "m.toml:15:19 axes.x.repeat_readings", "1",
        "2 or more beside repeat_mean_mm and repeat_deviation_mm, or 0 and none of them", "Let bridge setup or bridge calibrate repeat write all three.")]
    [InlineData("reference_speed_mm_s = 10", "reference_speed_mm_s = 60.1234567", "m.toml:16:24 axes.x.reference_speed_mm_s", "60.123457",
        "at most 60 mm/s, the axis's top_speed_mm_s", "Look for the endstop more slowly.")]
    [InlineData("format = 1", "link = 3\nformat = 1", "m.toml:1:1 link", "3", "a table", "Write [link] and its keys below it.")]
    [InlineData("[axes.y]", "[axes]\nqwertyuiop = 1\n[axes.y]", "m.toml:18:1 axes.qwertyuiop", "a key that is not known",
        "only tables in here", "Take it out.")]
    [InlineData("[axes.y]", "qwertyuiop = 1\n[axes.y]", "m.toml:17:1 axes.x.qwertyuiop", "a key that is not known", OfAnAxis, "Take it out.")]
    [InlineData("baud = 500000", "baud = 500000\nstore_bytes = 4", "m.toml:32:1 link.store_bytes", "a key that is not known", "baud",
        "It belongs in the lines above the first table.")]
    public void A_mistake_is_told_in_whole_sentences(string sound, string wrong, string place, string found, string allowed, string action) =>
        Assert.Contains(new Refusal(place, found, allowed, action).ToString(),
            RefusalsOf(sound, wrong).Select(refusal => refusal.ToString()));

    [Theory]
    [InlineData("repeat_readings = 5.0\nrepeat_deviation_mm = 0.1", "repeat_readings")]
    [InlineData("repeat_readings = 1\nrepeat_mean_mm = 11\nrepeat_deviation_mm = 0.1", "repeat_mean_mm")]
    [InlineData("repeat_readings = 1\nrepeat_mean_mm = 0.1\nrepeat_deviation_mm = -1", "repeat_deviation_mm")]
    public void Of_what_cannot_be_read_nothing_else_is_said(string lines, string key)
    {
        var refusal = Assert.Single(RefusalsOf("[axes.y]", $"{lines}\n[axes.y]"));
        Assert.EndsWith($" axes.x.{key}", refusal.Place);
    }

    [Fact]
    public void A_file_of_another_format_is_judged_no_further()
    {
        var refusal = Assert.Single(RefusalsOf("format = 1\nname = \"Sound\"", "format = 2\nname = 5"));
        Assert.Equal("m.toml:1:10 format", refusal.Place);
    }

    [Fact]
    public void A_table_that_is_a_number_is_one_mistake() =>
        Assert.Single(MachineFileMistakeTests.Refusals(
            MachineFileMistakeTests.Change("[link]\nbaud = 500000", "").Replace("format = 1", "link = 3\nformat = 1", StringComparison.Ordinal)));

    [Fact]
    public void Text_that_is_not_utf8_is_one_mistake()
    {
        var refused = Assert.Throws<RefusedException>(() => MachineFile.Parse([.. "name = "u8, 0xFF], "m.toml"));
        Assert.Equal("m.toml:1:8: found the byte 0xFF where no UTF-8 character can have it; allowed: UTF-8 text. Save the file as UTF-8.",
            $"{Assert.Single(refused.Refusals)}");
    }

    [Theory]
    [InlineData(9, 9, null)]
    [InlineData(10, 10, null)]
    [InlineData(11, 11, "1 more lines like that")]
    [InlineData(30, 11, "20 more lines like that")]
    public void Of_many_broken_lines_ten_are_told_and_the_rest_counted(int broken, int told, string? more)
    {
        var refusals = MachineFileMistakeTests.Refusals(string.Concat(Enumerable.Range(0, broken).Select(line => $"= {line}\n")));
        Assert.Equal(told, refusals.Count);
        Assert.Equal($"m.toml:1:1: found \"= 0\"; allowed: {Line}. Mend the line.", $"{refusals[0]}");
        if (more is not null)
            Assert.Equal($"m.toml:11:1: found {more}; allowed: {Line}. Check that this is a machine file.", $"{refusals[^1]}");
    }

    [Fact]
    public void Mistakes_of_one_line_are_told_from_left_to_right()
    {
        var refusals = MachineFileMistakeTests.Refusals(MachineFileMistakeTests.Change("[link]\nbaud = 500000", "").Replace(
            "format = 1", "link = { zzzzzzzzz = 1, baud = 1, yyyyyyyyy = 2 }\nformat = 1"));
        Assert.Equal(["m.toml:1:10 link.zzzzzzzzz", "m.toml:1:32 link.baud", "m.toml:1:35 link.yyyyyyyyy"], refusals.Select(refusal => refusal.Place));
    }

    [Fact]
    public void A_key_in_quotes_is_the_same_key() =>
        Assert.Equal("Sound", MachineFileMistakeTests.Parse(MachineFileMistakeTests.Change("kind = \"pen\"", "\"kind\" = \"pen\"")).Name);

    [Fact]
    public void What_is_nested_too_deep_is_told_of_the_file()
    {
        var refusal = Assert.Single(MachineFileMistakeTests.Refusals($"a = {new string('[', 100)}{new string(']', 100)}\n"));
        Assert.Equal(("m.toml:1:1", "lists and tables in lists and tables, at most 64 deep", "Take the nesting out."),
            (refusal.Place, refusal.Allowed, refusal.Action));
    }

    [Fact]
    public void What_toml_forbids_beyond_that_is_told_too()
    {
        var refusal = Assert.Single(MachineFileMistakeTests.Refusals(MachineFileMistakeTests.Change("[link]\nbaud = 500000\n", "[link]\n")
            .Replace("format = 1", "link.baud = 500000\nformat = 1", StringComparison.Ordinal)));
        Assert.Equal(("TOML 1.0", "Mend the line."), (refusal.Allowed, refusal.Action));
        Assert.Matches(@"^m\.toml:\d+:\d+$", refusal.Place);
    }

    [Fact]
    public void A_list_that_the_end_of_the_file_breaks_off_is_told_there()
    {
        var refusal = MachineFileMistakeTests.Refusals("a = [1,\n")[^1];
        Assert.Equal(("m.toml:2:1", "nothing", "Mend the line."), (refusal.Place, refusal.Found, refusal.Action));
    }

    [Theory]
    [InlineData(256, "a key that is not known")]
    [InlineData(257, "a key of 257 characters")]
    public void A_key_is_at_most_256_characters_long(int length, string found)
    {
        var refusal = Assert.Single(RefusalsOf("[axes.x]", $"{new string('k', length)} = 1\n[axes.x]"));
        Assert.Equal(found, refusal.Found);
        if (length > 256)
            Assert.Equal("m.toml:7:1: found a key of 257 characters; allowed: at most 256 characters. Take it out.", $"{refusal}");
    }

    [Theory]
    [InlineData("baudxx", "Did you mean baud?")] // one letter in three is wrong
    [InlineData("baudxxx", "Take it out.")]
    [InlineData("buad", "Did you mean baud?")]
    [InlineData("abux", "Take it out.")]         // an exchange and a letter, of four
    [InlineData("q", "Take it out.")]
    [InlineData("ud", "Take it out.")]
    public void A_word_that_was_meant_has_at_most_one_wrong_letter_in_three(string word, string action) =>
        Assert.Equal(action, Assert.Single(RefusalsOf("baud = 500000", $"baud = 500000\n{word} = 1")).Action);

    [Theory]
    [InlineData(40, "\"{0}\"")]
    [InlineData(41, "\"{1}...\"")]
    public void A_long_text_is_shown_by_its_first_forty_characters(int length, string shown)
    {
        var text = new string('a', length);
        var refusal = Assert.Single(RefusalsOf("kind = \"pen\"", $"kind = \"{text}\""));
        Assert.Equal(shown.Replace("{0}", text).Replace("{1}", text[..40]), refusal.Found);
    }

    [Fact]
    public void A_name_may_be_one_character() => Assert.Equal("B", MachineFileMistakeTests.Parse(MachineFileMistakeTests.Change("\"Sound\"", "\"B\"")).Name);

    [Theory]
    [InlineData("axes.x", "endstop = \"min\"\nendstop_gap_mm = 4\nbacklash_mm = 0\nreference_speed_mm_s = 10", "reference_speed_mm_s = 2", 41)]
    [InlineData("axes.z", "[heads.a]", "", 41)]
    public void From_the_far_end_of_each_axis_the_endstop_is_found_in_time(string axis, string sound, string line, int seconds)
    {
        const string z = "[axes.z]\ncells = 16\npitch_mm = 5\nsteps_per_mm = 80\ntop_speed_mm_s = 60\naccel_mm_s2 = 400\nendstop = \"min\"\n"
            + "endstop_gap_mm = 4\nreference_speed_mm_s = 2\n[heads.a]";
        var text = MachineFileMistakeTests.Change(sound, axis == "axes.z" ? z : sound.Replace("reference_speed_mm_s = 10", line))
            .Replace("[link]", $"[timeouts]\nreference_seconds = {seconds}\n[link]", StringComparison.Ordinal);
        var refusal = Assert.Single(MachineFileMistakeTests.Refusals(text));
        Assert.Equal($"at least 42 s, which {axis} needs from its far end at 2 mm/s (reference_speed_mm_s)", refusal.Allowed);
    }

    [Fact]
    public void A_file_of_the_largest_size_is_read_to_its_last_byte()
    {
        const int largest = 65536;
        var text = MachineFileMistakeTests.Change("baud = 500000\n", "baud = 115200");
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, $"#{new string('-', largest - text.Length - 2)}\n{text}");
            Assert.Equal(largest, new FileInfo(path).Length);
            Assert.Equal(115200, MachineFile.Read(path).Baud);
            File.AppendAllText(path, " ");
            Assert.Contains("more than 65536 bytes", Assert.Throws<RefusedException>(() => MachineFile.Read(path)).Message);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static IReadOnlyList<Refusal> RefusalsOf(string sound, string changed) =>
        MachineFileMistakeTests.Refusals(MachineFileMistakeTests.Change(sound, changed));
}

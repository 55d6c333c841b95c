namespace Bridge.Jobs.Tests;

/// <summary>What a person is told to do about a mistake in a machine file.</summary>
public sealed class MachineFileRemedyTests
{
    [Theory]
    [InlineData("format = 1", "format = 2", "Use a program that reads this format, or write the file anew.")]
    [InlineData("format = 1", "format = \"1\"", "Write a whole number, without quotes.")]
    [InlineData("name = \"Sound\"", "name = \"\"", "Choose another name.")]
    [InlineData("name = \"Sound\"", "name = 5", "Write the name in quotes.")]
    [InlineData("axis_bits = 4", "axis_bits = \"4\"", "Write it without quotes.")]
    [InlineData("axis_bits = 4", "axis_bits = 99", "Write one of them.")]
    [InlineData("store_bytes = 256", "store_bytes = 2", "Write a number in the range.")]
    [InlineData("store_bytes = 256", "store_bytes = 256.0", "Write it without a decimal point.")]
    [InlineData("store_bytes = 256", "store_bytes = \"256\"", "Write a whole number, without quotes.")]
    [InlineData("overprint = \"allow\"", "overprint = \"alow\"", "Did you mean \"allow\"?")]
    [InlineData("overprint = \"allow\"", "overprint = true", "Write one of them.")]
    [InlineData("pitch_mm = 5", "pitch_mm = 0", "Write a number in the range, in mm.")]
    [InlineData("pitch_mm = 5", "pitch_mm = 0.0", "Write a number in the range, in mm.")]
    [InlineData("pitch_mm = 5", "pitch_mm = \"5\"", "Write a number, without quotes.")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = 0", "Write two numbers in square brackets, such as [12.5, 0].")]
    [InlineData("store_bytes = 256", "axis_bits2 = 3\nstore_bytes = 256", "Did you mean axis_bits?")]
    [InlineData("store_bytes = 256\n", "", "Add a line that begins with store_bytes =.")]
    [InlineData("[link]\n", "[[link]]\n", "Write it with single brackets, once.")]
    [InlineData("pitch_mm = 5\n", "pitch_mm = 5\npitch_mm = 6\n", "Keep one of the two.")]
    [InlineData("format = 1", "format = = 1", "Mend the line.")]
    public void The_remedy_fits_the_mistake(string sound, string wrong, string action) =>
        Assert.Contains(MachineFileMistakeTests.Refusals(MachineFileMistakeTests.Change(sound, wrong)), refusal => refusal.Action == action);

    [Theory]
    [InlineData("axis_bits = 4\nstore_bytes = 256", "axis_bits = 8\nstore_bytes = 4", "4", "at least 5 bytes, one record of a machine with axis_bits = 8",
        "Give the store's real size.")]
    [InlineData("cells = 16\n", "cells = 17\n", "17", "1 to 16 cells with axis_bits = 4", "Take fewer cells or more axis_bits.")]
    [InlineData("pitch_mm = 5\nsteps_per_mm = 80", "pitch_mm = 0.01\nsteps_per_mm = 99", "99, which is 0.99 steps for a cell",
        "1 to 65535 steps for a cell (pitch_mm times steps_per_mm)", "Check both values.")]
    [InlineData("reference_speed_mm_s = 10", "reference_speed_mm_s = 60.5", "60.5", "at most 60 mm/s, the axis's top_speed_mm_s",
        "Look for the endstop more slowly.")]
    [InlineData("[link]", "[timeouts]\nreference_seconds = 13\n[link]", "13",
        "at least 14 s, which axes.y needs from its far end at 6 mm/s (reference_speed_mm_s)", "Allow more time, or look for the endstop faster.")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = [4.5, 0]", "4.5 along X, which takes the carriage into the endstop", "below 4 mm along X (endstop_gap_mm)",
        "Enlarge the gap, or count the carriage's place from the other head.")]
    [InlineData("offset_mm = [0, 0]", "offset_mm = [0, -5]", "-5 along Y, which takes the carriage into the endstop", "above -4 mm along Y (endstop_gap_mm)",
        "Enlarge the gap, or count the carriage's place from the other head.")]
    [InlineData("kind = \"pen\"\nlower_seconds = 0.1\nlift_seconds = 0.1", "kind = \"dot\"\nseconds_per_cell = 1\nlift_seconds = 0.1",
        "a key of the other kind of head",
        "nothing here: a dot head is not lifted", "Take the line out, or change kind.")]
    [InlineData("kind = \"pen\"\nlower_seconds = 0.1\nlift_seconds = 0.1", "kind = \"dot\"\nseconds_per_cell = 1\nlower_seconds = 0.1",
        "a key of the other kind of head",
        "nothing here: a dot head is not lowered", "Take the line out, or change kind.")]
    [InlineData("[link]\nbaud = 500000", "[colours]", "a table that is not known",
        "[axes.x], [axes.y], [axes.z], [heads.a], [heads.b], [link], [timeouts]", "Take it out.")]
    [InlineData("[link]\nbaud = 500000", "[link]\nbaud = 500000\nparity = 1", "a key that is not known", "baud", "Take it out.")]
    [InlineData("format = 1", "axes.q = 1\nformat = 1", "a key that is not known", "only tables in here", "Take it out.")]
    [InlineData("name = \"Sound\"", "name = true", "true", "text, 1 to 64 characters that show, no space at its ends", "Write the name in quotes.")]
    [InlineData("name = \"Sound\"", "name = [1, [2], 3, 4]", "[1, a list, 3, ...]", "text, 1 to 64 characters that show, no space at its ends",
        "Write the name in quotes.")]
    [InlineData("name = \"Sound\"", "name = -inf", "-inf", "text, 1 to 64 characters that show, no space at its ends", "Write the name in quotes.")]
    public void What_two_values_break_together_is_told_with_both(string sound, string wrong, string found, string allowed, string action)
    {
        var refusal = Assert.Single(MachineFileMistakeTests.Refusals(MachineFileMistakeTests.Change(sound, wrong)));
        Assert.Equal((found, allowed, action), (refusal.Found, refusal.Allowed, refusal.Action));
    }

    [Fact]
    public void A_missing_table_says_to_add_it_with_its_keys()
    {
        var sound = MachineFileMistakeTests.Change("[heads.a]\nkind = \"pen\"\nlower_seconds = 0.1\nlift_seconds = 0.1\noffset_mm = [0, 0]\n", "");
        Assert.Equal(("m.toml:1:1 heads.a", "no such table", "[heads.a]", "Add the table and its keys."),
            Parts(Assert.Single(MachineFileMistakeTests.Refusals(sound))));
    }

    [Fact]
    public void Too_many_mistakes_say_to_mend_those_above_first()
    {
        var flood = MachineFileMistakeTests.Change("store_bytes = 256\n",
            "store_bytes = 256\n" + string.Concat(Enumerable.Range(0, 101).Select(i => $"k{i} = 1\n")));
        Assert.Equal(("m.toml", "1 more mistakes", "none", "Mend the ones above first."), Parts(MachineFileMistakeTests.Refusals(flood)[^1]));
    }

    [Fact]
    public void A_file_that_is_too_large_or_no_text_says_what_to_check()
    {
        Assert.Equal(("m.toml:1:1", "more than 65536 bytes", "at most 65536 bytes (64 KiB)", "Check that this is a machine file."),
            Parts(Assert.Single(MachineFileMistakeTests.Refusals(new string('#', MachineFile.MaxBytes + 1)))));
        byte[] bytes = [.. "format = 1\n"u8, 0xFF];
        Assert.Equal(("m.toml:2:1", "the byte 0xFF where no UTF-8 character can have it", "UTF-8 text", "Save the file as UTF-8."),
            Parts(Assert.Single(Assert.Throws<RefusedException>(() => MachineFile.Parse(bytes, "m.toml")).Refusals)));
    }

    [Fact]
    public void A_path_that_leads_nowhere_says_to_check_it()
    {
        var refusal = Assert.Single(Assert.Throws<RefusedException>(() => MachineFile.Read("no-such-machine.toml")).Refusals);
        Assert.Equal(("no-such-machine.toml", "a machine file that can be read", "Check the path and who may read it."),
            (refusal.Place, refusal.Allowed, refusal.Action));
        Assert.False(refusal.Found.EndsWith('.'));
    }

    [Fact]
    public void Nesting_beyond_all_measure_says_to_take_it_out()
    {
        var deep = MachineFileMistakeTests.Change("name = \"Sound\"", $"name = {new string('[', 200)}");
        Assert.Contains(MachineFileMistakeTests.Refusals(deep), refusal =>
            (refusal.Allowed, refusal.Action) == ("lists and tables in lists and tables, at most 64 deep", "Take the nesting out."));
    }

    [Theory]
    [InlineData("kind = \"pen\"", "kind = \"pem\"", "Did you mean \"pen\"?")] // a letter changed
    [InlineData("store_bytes = 256", "store_byte = 256", "Did you mean store_bytes?")] // one lost
    [InlineData("store_bytes = 256", "store_bbytes = 256", "Did you mean store_bytes?")] // one too many
    [InlineData("store_bytes = 256", "sotre_bytes = 256", "Did you mean store_bytes?")] // two exchanged
    [InlineData("store_bytes = 256", "STORE_BYTES = 256", "Did you mean store_bytes?")]
    [InlineData("store_bytes = 256", "store = 256", "Did you mean store_bytes?")] // without its unit
    [InlineData("store_bytes = 256", "sxoxe_bxtes = 256", "Did you mean store_bytes?")] // 3 of 11 letters
    [InlineData("store_bytes = 256", "sxoxe_bxtxs = 256", "Take it out.")] // 4 of 11
    public void A_word_that_is_spelt_wrongly_is_guessed_up_to_a_third_of_its_letters(string sound, string wrong, string action) =>
        Assert.Contains(MachineFileMistakeTests.Refusals(MachineFileMistakeTests.Change(sound, wrong)), refusal => refusal.Action == action);

    private static (string, string, string, string) Parts(Refusal refusal) => (refusal.Place, refusal.Found, refusal.Allowed, refusal.Action);
}

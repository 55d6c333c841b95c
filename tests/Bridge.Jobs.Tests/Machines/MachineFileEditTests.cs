using System.Text;
using CsCheck;

namespace Bridge.Jobs.Tests;

public class MachineFileEditTests
{
    private const string Name = "machine.toml";

    private static readonly string[] Keys =
        ["axes.x.steps_per_mm", "axes.y.steps_per_mm", "axes.x.backlash_mm", "axes.y.backlash_mm", "heads.b.offset_mm[0]", "heads.b.offset_mm[1]"];

    public static TheoryData<string> Examples => new(ExampleMachines.Names);

    [Fact]
    public void A_count_is_written_whole_and_a_length_with_its_point()
    {
        var bytes = File.ReadAllBytes(ExampleMachines.PathOf("wide-plotter.toml"));
        foreach (var (key, value) in new[] { ("repeat_readings", 6.0), ("repeat_mean_mm", -0.0125), ("repeat_deviation_mm", 0.0079) })
            bytes = MachineFileEdit.With(bytes, Name, $"axes.y.{key}", value);
        Assert.Equal(new Repeatability(6, -0.0125, 0.0079), MachineFile.Parse(MachineFileEdit.With(bytes, Name, "axes.y.repeat_readings", 6), Name).Y.Repeat);
        Assert.Contains("repeat_readings = 6\n", Encoding.UTF8.GetString(bytes));
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void A_number_is_changed_and_nothing_else(string example)
    {
        var bytes = File.ReadAllBytes(ExampleMachines.PathOf(example));
        var before = MachineFile.Parse(bytes, Name);
        var keys = Keys.Where(key => before.B is not null || !key.StartsWith("heads.b", StringComparison.Ordinal)).ToArray();
        Gen.Select(Gen.Int[0, keys.Length - 1].Select(index => keys[index]), Gen.Double[1, 2.9])
            .Sample((key, value) =>
            {
                var after = MachineFileEdit.With(bytes, Name, key, value);
                var machine = MachineFile.Parse(after, Name);
                Assert.Equal(value, ValueOf(machine, key), 1e-4);
                Assert.Equal(ValueOf(before, Other(key)), ValueOf(machine, Other(key)));
                var (old, changed) = (Lines(bytes), Lines(after));
                Assert.InRange(changed.Length - old.Length, 0, 1);
                Assert.InRange(old.Except(changed).Count(), 0, 1);
                Assert.All(old.Where(line => line.StartsWith('#')), line => Assert.Contains(line, changed));
                Assert.Equal(after, MachineFileEdit.With(after, Name, key, value));
            }, iter: 60);
    }

    [Fact]
    public void A_comment_behind_a_number_and_the_ends_of_lines_stay()
    {
        var text = File.ReadAllText(ExampleMachines.PathOf(ExampleMachines.Names[0])).Replace("\r", "").Replace("\n", "\r\n");
        text = text.Replace("steps_per_mm = ", "steps_per_mm   =   ");
        var bytes = Encoding.UTF8.GetPreamble().Concat(Encoding.UTF8.GetBytes(text)).ToArray();
        var edited = Encoding.UTF8.GetString(MachineFileEdit.With(bytes, Name, "axes.x.steps_per_mm", 81.25));
        Assert.StartsWith("\uFEFF", edited);
        Assert.Contains("steps_per_mm   =   81.25\r\n", edited);
        Assert.Equal(text.Count(c => c == '\r'), edited.Count(c => c == '\r'));
    }

    [Theory]
    [InlineData("axes.x.steps_per_mm", 81.123456, "steps_per_mm = 81.1235")]
    [InlineData("axes.x.steps_per_mm", 81, "steps_per_mm = 81.0")]
    [InlineData("axes.x.backlash_mm", 0.00001, "backlash_mm = 0.00001")]
    [InlineData("store_bytes", 300.4, "store_bytes = 300")]
    [InlineData("heads.a.offset_mm[0]", 1.5, "offset_mm = [1.5, 0.0]")]
    [InlineData("heads.a.offset_mm[1]", 1.5, "offset_mm = [0.0, 1.5]")]
    public void A_number_has_six_digits_at_most_and_a_point_where_it_is_no_count(string key, double value, string line)
    {
        var bytes = File.ReadAllBytes(ExampleMachines.PathOf("wide-plotter.toml"));
        Assert.Contains(line, Lines(MachineFileEdit.With(bytes, Name, key, value)).Select(found => found.Split('#')[0].TrimEnd()));
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    public void A_key_that_is_missing_is_put_under_its_table_with_the_file_s_own_line_ends(string end)
    {
        var text = File.ReadAllText(ExampleMachines.PathOf("wide-plotter.toml")).ReplaceLineEndings(end);
        var edited = Encoding.UTF8.GetString(MachineFileEdit.With(Encoding.UTF8.GetBytes(text), Name, "axes.x.backlash_mm", 0.25));
        Assert.Equal(text.Replace($"[axes.x]{end}", $"[axes.x]{end}backlash_mm = 0.25{end}", StringComparison.Ordinal), edited);
    }

    [Fact]
    public void A_table_that_is_the_last_line_gets_a_line_below_it()
    {
        var text = File.ReadAllText(ExampleMachines.PathOf("wide-plotter.toml")) + "[timeouts]";
        var edited = Encoding.UTF8.GetString(MachineFileEdit.With(Encoding.UTF8.GetBytes(text), Name, "timeouts.answer_seconds", 3));
        Assert.Equal(text + "\nanswer_seconds = 3.0\n", edited);
    }

    [Fact]
    public void A_table_that_is_missing_is_refused()
    {
        var bytes = File.ReadAllBytes(ExampleMachines.PathOf("wide-plotter.toml"));
        var refused = Assert.Throws<RefusedException>(() => MachineFileEdit.With(bytes, Name, "heads.b.offset_mm[0]", 1));
        Assert.Equal("machine.toml: found no [heads.b]; allowed: the table [heads.b]. Add it by hand.", $"{Assert.Single(refused.Refusals)}");
    }

    [Fact]
    public void A_mistake_that_was_there_before_is_named_where_it_stands()
    {
        var text = File.ReadAllText(ExampleMachines.PathOf("wide-plotter.toml")).Replace("baud = 500000", "baud = 5", StringComparison.Ordinal);
        var line = text[..text.IndexOf("baud = 5", StringComparison.Ordinal)].Count(found => found == '\n') + 1;
        var refused = Assert.Throws<RefusedException>(() => MachineFileEdit.With(Encoding.UTF8.GetBytes(text), Name, "axes.x.backlash_mm", 0.25));
        Assert.StartsWith($"machine.toml:{line}:", Assert.Single(refused.Refusals).Place);
    }

    [Theory]
    [InlineData("axes.x.steps_per_mm", 1e9)]
    [InlineData("axes.x.backlash_mm", -1)]
    [InlineData("axes.w.backlash_mm", 1)]
    public void A_value_that_the_file_may_not_have_is_refused(string key, double value) =>
        Assert.Throws<RefusedException>(() => MachineFileEdit.With(File.ReadAllBytes(ExampleMachines.PathOf(ExampleMachines.Names[0])), Name, key, value));

    private static string Other(string key) => Keys[(Array.IndexOf(Keys, key) + 1) % 4];

    private static string[] Lines(byte[] bytes) => Encoding.UTF8.GetString(bytes).Split('\n');

    private static double ValueOf(Machine machine, string key) => key switch
    {
        "axes.x.steps_per_mm" => machine.X.StepsPerMm,
        "axes.y.steps_per_mm" => machine.Y.StepsPerMm,
        "axes.x.backlash_mm" => machine.X.BacklashMm,
        "axes.y.backlash_mm" => machine.Y.BacklashMm,
        "heads.b.offset_mm[0]" => machine.B!.OffsetXMm,
        _ => machine.B!.OffsetYMm,
    };
}

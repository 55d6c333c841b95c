using System.Text.RegularExpressions;

namespace Bridge.Jobs.Tests;

/// <summary>Holds the page for people who write machine files to what the reader does.</summary>
public sealed partial class MachineFileDocumentTests
{
    [Fact]
    public void The_page_lists_every_key_with_its_range_default_and_meaning_and_no_other()
    {
        var expected = MachineFile.Tables.SelectMany(
            table => table.Keys,
            (table, key) => (Title(table.Names), $"| `{key.Name}` | {key.Allowed} | {key.Default} | {key.Meaning} |"));

        Assert.Equal(expected, Rows(ExampleMachines.Text("README.md")));
    }

    [Fact]
    public void Each_key_is_declared_once_in_its_table() =>
        Assert.All(MachineFile.Tables, table => Assert.Equal(table.Keys.Count, table.Keys.Select(k => k.Name).Distinct().Count()));

    [Fact]
    public void The_default_that_the_page_states_is_the_one_that_holds()
    {
        var stated = MachineFile.Tables.SelectMany(t => t.Keys)
            .Where(k => !k.Default.StartsWith("required", StringComparison.Ordinal)).ToDictionary(k => k.Name, k => k.Default);
        var without = string.Join('\n', ExampleMachines.Text("wide-plotter.toml").Split('\n')
            .Where(line => !line.StartsWith("baud", StringComparison.Ordinal)));

        var machine = MachineFileMistakeTests.Parse(without);

        Assert.Equal(stated["overhang_cells"], Text(machine.OverhangCells));
        Assert.Equal(stated["head_change_seconds"], Text(machine.HeadChange.TotalSeconds));
        Assert.Equal(stated["backlash_mm"], Text(machine.X.BacklashMm));
        Assert.Equal(stated["offset_mm"], $"[{Text(machine.A.OffsetXMm)}, {Text(machine.A.OffsetYMm)}]");
        Assert.Equal(stated["baud"], Text(machine.Baud));
        Assert.Equal(stated["answer_seconds"], Text(machine.TimeOuts.Answer.TotalSeconds));
        Assert.Equal(stated["line_silence_seconds"], Text(machine.TimeOuts.LineSilence.TotalSeconds));
        Assert.Equal(stated["reference_seconds"], Text(machine.TimeOuts.Reference.TotalSeconds));
        Assert.Equal("a tenth of top_speed_mm_s", stated["reference_speed_mm_s"]);
        Assert.Equal(machine.X.TopSpeedMmS / 10, machine.X.ReferenceSpeedMmS);
        Assert.Equal(["0", "0", "0"], new[] { "repeat_readings", "repeat_mean_mm", "repeat_deviation_mm" }.Select(key => stated[key]));
        Assert.Null(machine.X.Repeat);
        Assert.Equal(12, stated.Count);
    }

    private static IEnumerable<(string Title, string Row)> Rows(string page)
    {
        var title = "";
        foreach (var line in page.ReplaceLineEndings("\n").Split('\n'))
        {
            if (line.StartsWith("## ", StringComparison.Ordinal)) title = string.Join(' ', Tables().Matches(line).Select(m => m.Value));
            if (line.StartsWith("| `", StringComparison.Ordinal)) yield return (title, line);
        }
    }

    private static string Title(IEnumerable<string> tables) => string.Join(' ', tables.Where(t => t.Length > 0).Select(t => $"[{t}]"));

    private static string Text(double number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\[[a-z.]+\]")]
    private static partial Regex Tables();
}

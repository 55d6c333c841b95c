using System.Text.RegularExpressions;

namespace Bridge.Wire.Tests;

/// <summary>The written protocol says what the code does.</summary>
public partial class SpecTests
{
    private static readonly string[] Lines = File.ReadAllLines(Path.Combine(Vectors.Root(), "firmware-protocol", "SPEC.md"));

    [Fact]
    public void Every_state_command_answer_cause_and_reset_reason_has_its_row()
    {
        AssertRows<MachineState>("state", first: 1);
        AssertRows<MachineCommand>("command", first: 1);
        AssertRows<Answer>("answer", first: 0, "added answer");
        AssertRows<StateCause>("cause", first: 0, "added cause");
        AssertRows<ResetReason>("reset_reason", first: 0);
    }

    [Fact]
    public void Every_message_has_its_row()
    {
        var table = TableAfter("type").Concat(TableAt(Line("| code | message |"))).OrderBy(cells => cells[0], StringComparer.OrdinalIgnoreCase);
        var rows = table.Select(cells => (Convert.ToByte(cells[0], 16), cells[1], cells[3] == "yes"));
        var types = Enum.GetValues<MessageType>().Skip(1).Select(type => ((byte)type, Snake($"{type}"), type.IsNumbered()));
        Assert.Equal(types, rows);
    }

    [Fact]
    public void The_tables_of_offsets_have_no_holes_and_end_at_the_bodies_lengths()
    {
        var ends = new List<int>();
        for (var i = 0; i < Lines.Length; i++)
            if (Lines[i] is "| offset | size | field | range |" or "| octet | size | field | range |")
                ends.Add(EndOf(TableAt(i)));
        int[] lengths = [Hello.Length, SetMachine.Length, SetAxis.Length, SetHead.Length, Begin.Length, Command.Length,
            FrameFormat.MaxBody, Welcome.Length, Status.Length, StoreBegin.Length, StoreData.PrefixLength + StoreData.MaxOctets,
            StoreCommit.Length, StoreRead.Length, Stored.PrefixLength + Stored.MaxOctets, BeginStored.Length, Jog.Length, References.Length];
        Assert.Equal(lengths, ends);
    }

    [Fact]
    public void Every_frame_of_the_example_is_good_and_is_what_it_is_said_to_be()
    {
        var seen = 0;
        for (var i = 0; i < Lines.Length; i++)
        {
            if (ExampleFrame().Match(Lines[i]) is not { Success: true } match)
                continue;
            var frame = Assert.Single(Decoding.Frames(new FrameDecoder(), Convert.FromHexString(match.Groups["hex"].Value.Replace(" ", ""))));
            Assert.True(FrameHeader.TryRead(frame, out var header, out var body));
            Assert.Equal(match.Groups["who"].Value == "board", (byte)header.Type >= 0x80);
            Assert.StartsWith($"{header.Type}", Lines[i + 1].Trim());
            Assert.NotNull(MessageText.Of(header.Type, body));
            seen++;
        }
        Assert.True(seen > 8);
    }

    private static void AssertRows<T>(string heading, int first, string? added = null) where T : struct, Enum
    {
        var table = TableAfter(heading).Concat(added is null ? [] : TableAfter(added));
        var rows = table.Select(cells => (int.Parse(cells[0]), cells[1].Trim('`')));
        var values = Enum.GetValues<T>().Select(value => (Convert.ToInt32(value), Snake($"{value}"))).Where(row => row.Item1 >= first);
        Assert.Equal(values, rows);
    }

    private static int EndOf(IEnumerable<string[]> rows)
    {
        var end = 0;
        foreach (var cells in rows)
        {
            Assert.Equal(end, int.Parse(cells[0]));
            end += int.Parse(cells[1].Split(' ')[^1]);
        }
        return end;
    }

    private static IEnumerable<string[]> TableAfter(string firstHeading) =>
        TableAt(Line($"| {firstHeading} | name |"));

    private static int Line(string start) => Array.FindIndex(Lines, line => line.StartsWith(start));

    private static IEnumerable<string[]> TableAt(int heading) => Lines.Skip(heading + 2).TakeWhile(line => line.StartsWith('|'))
        .Select(line => line.Trim('|').Split('|', StringSplitOptions.TrimEntries));

    private static string Snake(string name) => WordStart().Replace(name, "_$0").ToLowerInvariant();

    [GeneratedRegex("(?<!^)[A-Z]")]
    private static partial Regex WordStart();

    [GeneratedRegex("^    (?<who>host|board) +(?<hex>7e( [0-9a-f]{2})+)$")]
    private static partial Regex ExampleFrame();
}

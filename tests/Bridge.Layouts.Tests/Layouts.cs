using System.Text;
using Bridge.Jobs;

namespace Bridge.Layouts.Tests;

internal static class Layouts
{
    public const string Top = """
        format = 1
        name = "Test"
        record_bytes = 2
        positions_x = 16
        positions_y = 16
        moves = "absolute"

        """;

    /// <summary>
    /// All that the examples do not have: one byte, counts from 0, inverted and turned fields, a move for each axis, an again that is done once more.
    /// </summary>
    public const string OneByte = """
        format = 1
        name = "One byte a record"
        record_bytes = 1
        positions_x = 16
        positions_y = 16
        moves = "absolute"
        counts_from = 0
        headings = [2, 0]
        [fields]
        op = { place = 0, width = 3, inverted = true }
        n  = { place = 4, width = 4, order = "low_first" }
        d  = { place = 3, width = 1 }
        [verbs.end]
        when = { op = 7 }
        [verbs.column]
        does = "go"
        when = { op = 1, d = 0 }
        x = "n"
        [verbs.line_of]
        does = "go"
        when = { op = 1, d = 1 }
        y = "n"
        [verbs.row]
        when = { op = 2 }
        heading = "d"
        count = "n"
        [verbs.pen]
        does = "head"
        when = { op = 3 }
        head = "d"
        [verbs.up]
        does = "rise"
        when = { op = 4 }
        [verbs.more]
        does = "again"
        when = { op = 5, d = 1 }
        reach = "n"
        times = 1
        """;

    public static Layout Parse(string text) => LayoutFile.Parse(Encoding.UTF8.GetBytes(text), "own.toml");

    public static IReadOnlyList<Refusal> Refusals(string text) => Assert.Throws<RefusedException>(() => Parse(text)).Refusals;

    public static string BuiltIn => File.ReadAllText(Examples.PathOf("layouts", "built-in-4.toml"));
}

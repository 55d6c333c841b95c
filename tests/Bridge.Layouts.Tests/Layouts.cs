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

    public static Layout Parse(string text) => LayoutFile.Parse(Encoding.UTF8.GetBytes(text), "own.toml");

    public static IReadOnlyList<Refusal> Refusals(string text) => Assert.Throws<RefusedException>(() => Parse(text)).Refusals;

    public static string BuiltIn => File.ReadAllText(Examples.PathOf("layouts", "built-in-4.toml"));
}

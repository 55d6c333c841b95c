namespace Bridge.Cli;

/// <summary>Counts with their words.</summary>
internal static class Counted
{
    /// <summary>A count and its word: 1 layer, 2 layers.</summary>
    public static string Of(long count, string word) => $"{count} {word}{(count == 1 ? "" : "s")}";

    /// <summary>Cells worked by each head, on some layers.</summary>
    public static string Cells(long a, long b, int layers) => $"{a} by head a, {b} by head b, on {Of(layers, "layer")}";
}

namespace Bridge.Tests;

/// <summary>Finds the repository's files, and reads golden vectors: one a line, fields between bars, `#` starts a comment line.</summary>
internal static class Vectors
{
    public static string Root { get; } = FindRoot();

    public static IEnumerable<string[]> Of(string path) =>
        File.ReadLines(Path.Combine(Root, "firmware-protocol", "vectors", path))
            .Where(line => line.Length > 0 && line[0] != '#')
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries));

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Bridge.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("Tests run from within the repository.");
        return folder;
    }
}

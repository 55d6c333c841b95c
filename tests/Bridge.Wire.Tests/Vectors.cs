namespace Bridge.Wire.Tests;

/// <summary>Reads the golden vectors that the C tests read too.</summary>
internal static class Vectors
{
    public static IEnumerable<string[]> Read(string file)
    {
        var path = Path.Combine(Root(), "firmware-protocol", "vectors", "wire", file);
        var rows = File.ReadAllLines(path).Where(line => !line.StartsWith('#'))
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries)).ToArray();
        Assert.NotEmpty(rows);
        return rows;
    }

    public static TheoryData<string, string, string> Columns(string file)
    {
        var data = new TheoryData<string, string, string>();
        foreach (var row in Read(file))
            data.Add(row[0], row[1], row[2]);
        return data;
    }

    public static byte[] Hex(string text) => text == "-" ? [] : Convert.FromHexString(text);

    public static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Bridge.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new DirectoryNotFoundException("No folder above the tests holds Bridge.sln.");
    }
}

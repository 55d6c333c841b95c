using Bridge.Jobs;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>The repository's own machines and shapes.</summary>
internal static class Examples
{
    private static readonly string Folder = FindFolder();

    /// <summary>A machine by its file.</summary>
    public static Machine Machine(string name) => MachineFile.Read(Path.Combine(Folder, "machines", name));

    /// <summary>A shape by its file.</summary>
    public static Shape Shape(string name, Machine machine, bool dither = false) =>
        ShapeFile.Read(Path.Combine(Folder, "shapes", name), new ShapeOptions { Limit = machine.Grid, Dither = dither });

    private static string FindFolder()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Bridge.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("The bench runs from within the repository.");
        return Path.Combine(folder, "examples");
    }
}

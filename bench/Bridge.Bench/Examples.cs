using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Bench;

/// <summary>What the benches work on: the repository's own examples, by path from its top.</summary>
internal static class Examples
{
    public static string Root { get; } = FindRoot();

    public static Machine WidePlotter { get; } = MachineFile.Read(At("examples/machines/wide-plotter.toml"));

    /// <summary>The heron, 256 x 256 cells: black and white, or its greys as scattered cells.</summary>
    public static Shape Heron(bool dither) =>
        ShapeFile.Read(At("examples/shapes/heron.png"), new ShapeOptions { Limit = WidePlotter.Grid, Dither = dither });

    public static string At(string path) => Path.Combine(Root, path);

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Bridge.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("The bench runs from within the repository.");
        return folder;
    }
}

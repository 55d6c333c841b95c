namespace Bridge.Jobs.Tests;

/// <summary>The machine files that the project ships.</summary>
internal static class ExampleMachines
{
    public static readonly string[] Names = ["cardboard-plotter.toml", "desktop-gantry.toml", "wide-plotter.toml"];

    public static string Folder { get; } = Find();

    public static string PathOf(string name) => Path.Combine(Folder, name);

    public static string Text(string name) => File.ReadAllText(PathOf(name));

    private static string Find()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
            if (File.Exists(Path.Combine(at.FullName, "Bridge.sln"))) return Path.Combine(at.FullName, "examples", "machines");

        throw new InvalidOperationException("The tests run outside the repository.");
    }
}

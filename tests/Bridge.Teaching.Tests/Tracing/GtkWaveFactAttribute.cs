namespace Bridge.Teaching.Tests;

/// <summary>A test that needs the tools of Debian's package gtkwave; elsewhere it is skipped, and says so.</summary>
public sealed class GtkWaveFactAttribute : FactAttribute
{
    public GtkWaveFactAttribute()
    {
        var path = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        if (!new[] { "vcd2fst", "fst2vcd" }.All(tool => path.Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, tool)))))
            Skip = "It needs vcd2fst and fst2vcd, of the package gtkwave.";
    }
}

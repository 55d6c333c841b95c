using Contract.Tests;

namespace Simulation.Tests;

/// <summary>The firmware's core as a shared library, built with gcc and make: as it is, or with a defect planted in a copy of it.</summary>
internal static class BoardSource
{
    private const string Library = "libbridge_native.so";

    /// <summary>Builds it as it is, and gives the library's path.</summary>
    public static string Build() => NativeMake.Build(NativeMake.Reference, NativeMake.OwnFolder, Library);

    /// <summary>Builds a copy in which some text of a file is another: the text must be there, once.</summary>
    public static string BuildWithDefect(string name, string file, string text, string defect)
    {
        var copy = Path.Combine(AppContext.BaseDirectory, $"native-{name}");
        if (Directory.Exists(copy))
            Directory.Delete(copy, recursive: true);
        foreach (var from in Directory.EnumerateFiles(NativeMake.Reference, "*", SearchOption.AllDirectories).Where(IsOfCore))
        {
            var to = Path.Combine(copy, Path.GetRelativePath(NativeMake.Reference, from));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(from, to);
        }

        var place = Path.Combine(copy, file);
        var parts = File.ReadAllText(place).Split(text);
        Assert.True(parts.Length == 2, $"{file} holds {parts.Length - 1} times: {text}");
        File.WriteAllText(place, string.Join(defect, parts));
        return NativeMake.Build(copy, Path.Combine(copy, "out"), Library, "OPTIMIZE=-O1"); // it is run for seconds, and built as long
    }

    private static bool IsOfCore(string path) => Path.GetRelativePath(NativeMake.Reference, path) is var file
        && (file == "Makefile" || file.StartsWith("core", StringComparison.Ordinal) || file.StartsWith("ports", StringComparison.Ordinal))
        && Path.GetExtension(file) is ".c" or ".h" or "";
}

/// <summary>A test that needs the native core; skipped, with a word, where it cannot be built.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class SimulationFactAttribute : FactAttribute
{
    public SimulationFactAttribute() => Skip = NativeMake.IsMissingBecause;
}

/// <summary>A test with data that needs the native core; skipped, with a word, where it cannot be built.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class SimulationTheoryAttribute : TheoryAttribute
{
    public SimulationTheoryAttribute() => Skip = NativeMake.IsMissingBecause;
}

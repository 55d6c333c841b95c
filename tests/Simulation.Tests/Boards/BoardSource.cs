using System.Diagnostics;

namespace Simulation.Tests;

/// <summary>The firmware's core as a shared library, built with gcc and make: as it is, or with a defect planted in a copy of it.</summary>
internal static class BoardSource
{
    private static readonly string Reference = Path.Combine(Vectors.Root, "firmware-protocol", "reference");

    /// <summary>Why it cannot be built here; null where it can.</summary>
    public static string? IsMissingBecause { get; } =
        OperatingSystem.IsWindows() ? "The native core is built with gcc and make, which are not looked for on Windows."
        : !IsInPath("gcc") || !IsInPath("make") ? "The native core is built with gcc and make, and they are not here."
        : null;

    /// <summary>Builds it as it is, and gives the library's path.</summary>
    public static string Build() => Make(Reference, Path.Combine(AppContext.BaseDirectory, "native"));

    /// <summary>Builds a copy in which some text of a file is another: the text must be there, once.</summary>
    public static string BuildWithDefect(string name, string file, string text, string defect)
    {
        var copy = Path.Combine(AppContext.BaseDirectory, $"native-{name}");
        if (Directory.Exists(copy))
            Directory.Delete(copy, recursive: true);
        foreach (var from in Directory.EnumerateFiles(Reference, "*", SearchOption.AllDirectories).Where(IsOfCore))
        {
            var to = Path.Combine(copy, Path.GetRelativePath(Reference, from));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(from, to);
        }

        var place = Path.Combine(copy, file);
        var parts = File.ReadAllText(place).Split(text);
        Assert.True(parts.Length == 2, $"{file} holds {parts.Length - 1} times: {text}");
        File.WriteAllText(place, string.Join(defect, parts));
        return Make(copy, Path.Combine(copy, "out"));
    }

    private static bool IsOfCore(string path) => Path.GetRelativePath(Reference, path) is var file
        && (file == "Makefile" || file.StartsWith("core", StringComparison.Ordinal) || file.StartsWith("ports", StringComparison.Ordinal))
        && Path.GetExtension(file) is ".c" or ".h" or "";

    private static string Make(string folder, string output)
    {
        var library = Path.Combine(output, "libbridge_native.so");
        var start = new ProcessStartInfo("make", ["-C", folder, $"OUT={output}", library]) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var make = Process.Start(start)!;
        var said = make.StandardError.ReadToEndAsync();
        make.StandardOutput.ReadToEnd();
        make.WaitForExit();
        return make.ExitCode == 0 ? library : throw new InvalidOperationException($"The native core is not built: {said.Result}");
    }

    private static bool IsInPath(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, program)));
}

/// <summary>A test that needs the native core; skipped, with a word, where it cannot be built.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class SimulationFactAttribute : FactAttribute
{
    public SimulationFactAttribute() => Skip = BoardSource.IsMissingBecause;
}

/// <summary>A test with data that needs the native core; skipped, with a word, where it cannot be built.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class SimulationTheoryAttribute : TheoryAttribute
{
    public SimulationTheoryAttribute() => Skip = BoardSource.IsMissingBecause;
}

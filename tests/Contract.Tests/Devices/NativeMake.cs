using System.Diagnostics;

namespace Contract.Tests;

/// <summary>Builds the firmware's core for this machine, with gcc and make.</summary>
internal static class NativeMake
{
    public static readonly string Reference = Path.Combine(Vectors.Root, "firmware-protocol", "reference");

    /// <summary>Why it cannot be built here; null where it can.</summary>
    public static string? IsMissingBecause { get; } =
        OperatingSystem.IsWindows() ? "The native core is built with gcc and make, which are not looked for on Windows."
        : !IsInPath("gcc") || !IsInPath("make") ? "The native core is built with gcc and make, and they are not here."
        : null;

    /// <summary>A folder of this test's own, so that builds at the same time do not disturb one another.</summary>
    public static string OwnFolder { get; } = Path.Combine(AppContext.BaseDirectory, "native");

    /// <summary>Builds a library or a program from a folder's sources into another, and gives its path.</summary>
    /// <param name="sources">The folder of the sources.</param>
    /// <param name="output">The folder that it is put into.</param>
    /// <param name="name">What is built.</param>
    /// <param name="settings">Of the Makefile's variables, as NAME=VALUE.</param>
    public static string Build(string sources, string output, string name, params string[] settings)
    {
        var target = Path.Combine(output, name);
        string[] wanted = ["-C", sources, $"OUT={output}", .. settings, target];
        var start = new ProcessStartInfo("make", wanted) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var make = Process.Start(start)!;
        var said = make.StandardError.ReadToEndAsync();
        make.StandardOutput.ReadToEnd();
        make.WaitForExit();
        return make.ExitCode == 0 ? target : throw new InvalidOperationException($"The native core is not built: {said.Result}");
    }

    private static bool IsInPath(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, program)));
}

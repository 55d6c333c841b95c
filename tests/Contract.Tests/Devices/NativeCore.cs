using System.Diagnostics;
using System.Reflection;
using System.Runtime.InteropServices;

namespace Contract.Tests;

/// <summary>Builds the firmware's core for this machine, once, and loads it.</summary>
internal static class NativeCore
{
    private static readonly Lazy<nint> Handle = new(() => NativeLibrary.Load(Build()));
    private static readonly Lazy<bool> IsResolved = new(Resolve);

    /// <summary>Why there is no native core here; null where there is one.</summary>
    public static string? IsMissingBecause { get; } =
        OperatingSystem.IsWindows() ? "The native core is built with gcc and make, which are not looked for on Windows."
        : !IsInPath("gcc") || !IsInPath("make") ? "The native core is built with gcc and make, and they are not here."
        : null;

    /// <summary>Makes the calls usable.</summary>
    public static void Load() => Assert.True(IsResolved.Value);

    private static bool Resolve()
    {
        NativeLibrary.SetDllImportResolver(Assembly.GetExecutingAssembly(), (name, _, _) => name == NativeCalls.Library ? Handle.Value : 0);
        return true;
    }

    /// <summary>Into this test's own folder, so that builds at the same time do not disturb one another.</summary>
    private static string Build()
    {
        var output = Path.Combine(AppContext.BaseDirectory, "native");
        var library = Path.Combine(output, "libbridge_native.so");
        var start = new ProcessStartInfo("make") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in new[] { "-C", Path.Combine(Vectors.Root, "firmware-protocol", "reference"), $"OUT={output}", library })
            start.ArgumentList.Add(argument);
        using var make = Process.Start(start)!;
        var said = make.StandardError.ReadToEndAsync();
        make.StandardOutput.ReadToEnd();
        make.WaitForExit();
        return make.ExitCode == 0 ? library : throw new InvalidOperationException($"The native core is not built: {said.Result}");
    }

    private static bool IsInPath(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, program)));
}

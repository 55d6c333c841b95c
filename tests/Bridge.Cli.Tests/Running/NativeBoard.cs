using System.Diagnostics;

namespace Bridge.Cli.Tests;

/// <summary>The firmware's core as a program on a pseudo-terminal, in real time, with a gantry of its own.</summary>
internal sealed class NativeBoard : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private static readonly Lazy<string> Program = new(Build);

    private readonly Process _process;

    private NativeBoard(Process process, string portName) => (_process, PortName) = (process, portName);

    /// <summary>Why there is none here; null where there is one.</summary>
    public static string? IsMissingBecause { get; } =
        !OperatingSystem.IsLinux() || !IsInPath("gcc") || !IsInPath("make") ? "The native board is built with gcc and make, on Linux." : null;

    /// <summary>The terminal to open.</summary>
    public string PortName { get; }

    public static async Task<NativeBoard> Start()
    {
        var start = new ProcessStartInfo(Program.Value) { RedirectStandardInput = true, RedirectStandardOutput = true };
        var process = Process.Start(start)!;
        var said = await process.StandardOutput.ReadLineAsync().WaitAsync(Patience);
        return new NativeBoard(process, said!.Trim());
    }

    /// <summary>State and cause, numbers of the specification, and the cells worked.</summary>
    public async Task<(int State, int Cause, int Worked)> Look()
    {
        await _process.StandardInput.WriteLineAsync("state");
        await _process.StandardInput.FlushAsync();
        var words = (await _process.StandardOutput.ReadLineAsync().WaitAsync(Patience))!.Split(' ');
        return (Number(1), Number(3), Number(9));

        int Number(int word) => int.Parse(words[word], System.Globalization.CultureInfo.InvariantCulture);
    }

    /// <summary>Pulls the line, and the power with it.</summary>
    public void Kill() => _process.Kill();

    public void Dispose()
    {
        if (!_process.HasExited)
            _process.Kill();
        _process.Dispose();
    }

    private static string Build()
    {
        var output = Path.Combine(AppContext.BaseDirectory, "native");
        var program = Path.Combine(output, "bridge-native");
        var start = new ProcessStartInfo("make") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in new[] { "-C", Path.Combine(Vectors.Root, "firmware-protocol", "reference"), $"OUT={output}", program })
            start.ArgumentList.Add(argument);
        using var make = Process.Start(start)!;
        var said = make.StandardError.ReadToEndAsync();
        make.StandardOutput.ReadToEnd();
        make.WaitForExit();
        return make.ExitCode == 0 ? program : throw new InvalidOperationException($"The native board is not built: {said.Result}");
    }

    private static bool IsInPath(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => folder.Length > 0 && File.Exists(Path.Combine(folder, program)));
}

/// <summary>A test that needs the native board; elsewhere it is skipped, and says so.</summary>
public sealed class NativeBoardFactAttribute : FactAttribute
{
    public NativeBoardFactAttribute() => Skip = NativeBoard.IsMissingBecause;
}

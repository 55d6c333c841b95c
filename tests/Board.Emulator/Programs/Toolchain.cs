using System.Diagnostics;
using System.Runtime.InteropServices;

namespace Board.Emulator;

/// <summary>The programs and the library of the system that the board's tests need.</summary>
public static class Toolchain
{
    /// <summary>Why the board's tests cannot run here, or null where they can.</summary>
    public static string? Missing { get; } = FindMissing();

    /// <summary>Runs a program to its end, within two minutes, and returns what it wrote; that is in the exception where it fails.</summary>
    public static string Run(string program, string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { WorkingDirectory = folder, RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Process.Start(start) ?? throw new InvalidOperationException($"{program} does not start.");
        var output = process.StandardOutput.ReadToEndAsync();
        var errors = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(TimeSpan.FromMinutes(2)))
        {
            process.Kill(entireProcessTree: true);
            throw new InvalidOperationException($"{program} does not end.");
        }
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)}\n{output.Result}{errors.Result}");
        return output.Result;
    }

    private static string? FindMissing()
    {
        if (!OperatingSystem.IsLinux() || RuntimeInformation.ProcessArchitecture != Architecture.X64)
            return "The emulator is known on 64-bit x86 Linux alone.";
        if (!NativeLibrary.TryLoad(Simavr.Library, out _))
            return $"{Simavr.Library} is missing (Debian package libsimavr2).";
        foreach (var program in (string[])["avr-gcc", "avr-objcopy", "make"])
            if (!IsOnPath(program))
                return $"{program} is missing (Debian packages gcc-avr, binutils-avr, avr-libc, make).";
        return null;
    }

    private static bool IsOnPath(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries).Any(folder => File.Exists(Path.Combine(folder, program)));
}

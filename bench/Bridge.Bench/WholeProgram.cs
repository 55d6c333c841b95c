using System.Diagnostics;

namespace Bridge.Bench;

/// <summary>The program as people run it, by ./bridge, once it is built.</summary>
internal static class WholeProgram
{
    public static IEnumerable<Figure> MeasureDemo()
    {
        var folder = Directory.CreateTempSubdirectory("bridge-bench-");
        try
        {
            return [Figure.OfSeconds("demo", Goal.Below(10), repetitions: 3, () => Run(folder.FullName, "demo"))];
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    public static IEnumerable<Figure> MeasureStart() =>
        [Figure.OfSeconds("start", Goal.Below(0.5), repetitions: 9, () => Run(Examples.Root, "--help"))];

    /// <summary>Runs the program to its end.</summary>
    public static void Run(string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo(Examples.At("bridge"), arguments) { WorkingDirectory = folder, RedirectStandardOutput = true };
        using var program = Process.Start(start)!;
        program.StandardOutput.ReadToEnd();
        program.WaitForExit();
        if (program.ExitCode != 0)
            throw new InvalidOperationException($"bridge {string.Join(' ', arguments)} ended with {program.ExitCode}.");
    }
}

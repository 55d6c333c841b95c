namespace Bridge.Cli.Tests;

/// <summary>A folder of a test's own with the examples in it, gone with the test.</summary>
public sealed class WorkFolder : IDisposable
{
    /// <summary>A 4 x 4 plotter whose only slow thing is the time at a cell, with patience for a machine that tests are many on.</summary>
    private const string QuickMachine = """
        format = 1
        name = "Quick"
        axis_bits = 4
        store_bytes = 256
        overprint = "allow"
        [axes.x]
        cells = 4
        pitch_mm = 1
        steps_per_mm = 80
        top_speed_mm_s = 1000
        accel_mm_s2 = 100000
        endstop = "min"
        endstop_gap_mm = 1
        reference_speed_mm_s = 100
        [axes.y]
        cells = 4
        pitch_mm = 1
        steps_per_mm = 80
        top_speed_mm_s = 1000
        accel_mm_s2 = 100000
        endstop = "min"
        endstop_gap_mm = 1
        reference_speed_mm_s = 100
        [heads.a]
        kind = "dot"
        seconds_per_cell = SECONDS
        [timeouts]
        answer_seconds = 30
        line_silence_seconds = 2

        """;

    private const string QuickZ = """
        [axes.z]
        cells = 4
        pitch_mm = 1
        steps_per_mm = 80
        top_speed_mm_s = 100
        accel_mm_s2 = 10000
        endstop = "min"
        endstop_gap_mm = 1
        reference_speed_mm_s = 50

        """;

    public string Path { get; } = Directory.CreateTempSubdirectory("bridge-cli-").FullName;

    public string Plotter { get; } = Example("machines", "cardboard-plotter.toml");

    public string Gantry { get; } = Example("machines", "desktop-gantry.toml");

    public string Kite { get; } = Example("shapes", "kite.csv");

    public static string Example(string kind, string name) => System.IO.Path.Combine(AppContext.BaseDirectory, "examples", kind, name);

    public string In(string name) => System.IO.Path.Combine(Path, name);

    public string Write(string name, string text)
    {
        File.WriteAllText(In(name), text);
        return In(name);
    }

    public string Write(string name, byte[] bytes)
    {
        File.WriteAllBytes(In(name), bytes);
        return In(name);
    }

    public string Quick(double secondsPerCell) =>
        Write("quick.toml", QuickMachine.Replace("SECONDS", FormattableString.Invariant($"{secondsPerCell}")));

    /// <summary>The quick machine at speeds that a small controller can make.</summary>
    public string QuickBoard(double secondsPerCell) => Write("quick.toml",
        File.ReadAllText(Quick(secondsPerCell)).Replace("top_speed_mm_s = 1000", "top_speed_mm_s = 400", StringComparison.Ordinal));

    /// <summary>The same with four layers.</summary>
    public string QuickTower(double secondsPerCell) => Write("tower.toml", File.ReadAllText(QuickBoard(secondsPerCell))
        .Replace("\"allow\"", "\"forbid\"", StringComparison.Ordinal)
        .Replace("[heads.a]", QuickZ + "[heads.a]", StringComparison.Ordinal));

    /// <summary>The kite's job for the plotter.</summary>
    public async Task<string> KiteJob()
    {
        Assert.Equal(0, (await InProcess.Run("plan", Kite, "--machine", Plotter, "--out", In("kite.job"))).ExitCode);
        return In("kite.job");
    }

    public IEnumerable<string> Names =>
        Directory.EnumerateFileSystemEntries(Path).Select(name => System.IO.Path.GetFileName(name)!).Order(StringComparer.Ordinal);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}

using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;

namespace Bridge.Bench;

/// <summary>The record of a run of ten hours and a million cells on the mock device, its time passing at once: what it takes.</summary>
internal static class RunRecord
{
    private const int Layers = 16;
    private const int Side = 250; // cells, in rows of ten: 100 000 records

    private const string Machine = """
        format = 1
        name = "Tall bench"
        axis_bits = 8
        store_bytes = 65535
        overprint = "allow"
        [axes.x]
        cells = 256
        pitch_mm = 1
        steps_per_mm = 80
        top_speed_mm_s = 500
        accel_mm_s2 = 20000
        endstop = "min"
        endstop_gap_mm = 1
        [axes.y]
        cells = 256
        pitch_mm = 1
        steps_per_mm = 80
        top_speed_mm_s = 500
        accel_mm_s2 = 20000
        endstop = "min"
        endstop_gap_mm = 1
        [axes.z]
        cells = 17
        pitch_mm = 1
        steps_per_mm = 80
        top_speed_mm_s = 100
        accel_mm_s2 = 1000
        endstop = "max"
        endstop_gap_mm = 1
        [heads.a]
        kind = "dot"
        seconds_per_cell = 0.021

        """;

    public static IEnumerable<Figure> Measure()
    {
        var runs = Directory.CreateTempSubdirectory("bridge-bench-").FullName;
        try
        {
            var before = Process.GetCurrentProcess().TotalProcessorTime;
            var (folder, seconds) = Run(runs);
            var share = (Process.GetCurrentProcess().TotalProcessorTime - before).TotalSeconds / seconds;
            var bytes = new DirectoryInfo(folder).EnumerateFiles("*", SearchOption.AllDirectories).Sum(file => file.Length);
            yield return new Figure("run-record folder", "MB", Goal.Below(50), [bytes / 1e6]);
            yield return new Figure("run-record streaming", "% of a core", Goal.Below(5), [100 * share]);
            yield return Figure.OfSeconds("run-record report", Goal.Below(3), repetitions: 3, () => WholeProgram.Run(runs, "report", folder));
            yield return Figure.OfSeconds("run-record verify", Goal.Below(3), repetitions: 3, () => WholeProgram.Run(runs, "verify", folder));
        }
        finally
        {
            Directory.Delete(runs, recursive: true);
        }
    }

    // The mock's own work counts as the run's.
    private static (string Folder, double Seconds) Run(string runs)
    {
        var bytes = System.Text.Encoding.UTF8.GetBytes(Machine);
        var machine = MachineFile.Parse(bytes, "tall.toml");
        var job = new JobFile(machine.Grid, machine.Digest, Image.Of(machine.Width, [.. Records(machine.Width)]));
        var time = new VirtualTime();
        using var port = MockPort.Of(machine, time, seed: 1);
        using var line = port.Open();
        var settings = new RunSettings { RunId = 1, Token = 1, Device = "mock" };
        using var session = RunSession.Create(
            new RunRequest("tall.job", job.ToBytes(), "tall.toml", bytes, runs, settings), new Nobody(), time, DateTimeOffset.UnixEpoch);
        var end = session.RunAsync(line).GetAwaiter().GetResult();
        if (end.Outcome != RunOutcome.Complete || session.Controller.Worked.Counts.A != Layers * Side * Side)
            throw new InvalidOperationException($"{end.Words} That is not the run.");
        return (session.Folder.Path, session.Summary!.Seconds);
    }

    private static IEnumerable<Record> Records(RecordWidth width)
    {
        const int Row = 10;
        const int OfLayer = Side * Side / Row;
        for (var y = 0; y < Side; y++)
            for (var x = 0; x < Side; x += Row)
                yield return Record.Row(width, Head.A, new Cell(x, y), 0, Row, rise: (x, y) == (0, 0));
        yield return Record.Again(width, OfLayer, Layers - 1);
        yield return Record.End;
    }

    private sealed class Nobody : IRunWatcher
    {
        public void StateChanged(RunProgress progress)
        {
        }

        public void Progressed(RunProgress progress)
        {
        }

        public void Told(string words)
        {
        }
    }
}

using System.Device.Gpio;
using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Serial;
using Bridge.Station;
using Bridge.Station.Tests;
using Bridge.Wire;

namespace Bridge.Bench;

/// <summary>
/// From the opening of the station's e-stop contact, on simulated pins, to STOP written to a pseudo-terminal, and to its far end, while a run
/// streams and every core has a thread that never rests.
/// </summary>
internal static class ContactToStop
{
    private const int Trials = 2000;
    private const int EStop = 1, Hold = 2, Start = 3;

    private static readonly StationWiring Wiring = new(null, new ContactPins(EStop, Hold, Start), new Dictionary<LampColor, int>(), null);

    public static IEnumerable<Figure> Measure() => MeasureAsync().GetAwaiter().GetResult();

    private static async Task<IEnumerable<Figure>> MeasureAsync()
    {
        var machine = Quick(MachineFile.Read(Examples.At("examples/machines/cardboard-plotter.toml")));
        var job = ProvedJob.Of(new JobFile(machine.Grid, machine.Digest, Image.Of(machine.Width,
            [.. Enumerable.Repeat(Record.Row(machine.Width, Head.A, new Cell(1, 1), 0, 2), 80), Record.End])), machine);
        using var board = new BoardBehindTerminal(machine);
        using var busy = new BusyCores();
        StampedOutput? stamped = null;
        var options = new SerialLineOptions { Between = output => stamped = new StampedOutput(output) };
        var line = await OpenAsync(board, machine, options);
        var folder = Directory.CreateTempSubdirectory("bridge-bench-").FullName;
        var random = new Random(1);
        var asked = new List<double>();
        var written = new List<double>();
        var arrived = new List<double>();
        var lost = 0;
        for (var trial = 0; trial < Trials; trial++)
        {
            if (await TryAsync(job, board, line, stamped!, busy, folder, trial, random.Next(1, 40)) is { } took)
            {
                asked.Add(took.Asked);
                written.Add(took.Written);
                arrived.Add(took.Arrived);
            }
            else
                lost++; // before the contact was opened
            if (line.IsOpen)
                continue;
            line.Dispose();
            line = await OpenAsync(board, machine, options);
        }

        line.Dispose();
        Directory.Delete(folder, recursive: true);
        return
        [
            .. Figures("contact to STOP handed over", asked, Goal.Below(double.PositiveInfinity)),
            .. Figures("contact to STOP written", written, Goal.Below(5)),
            .. Figures("contact to STOP arrived", arrived, Goal.Below(double.PositiveInfinity)), // by a worker of the kernel that a real port does without
            new Figure("runs lost before", "of " + Trials, Goal.Below(double.PositiveInfinity), [lost]),
        ];
    }

    private static IEnumerable<Figure> Figures(string name, List<double> milliseconds, Goal goal)
    {
        var none = Goal.Below(double.PositiveInfinity);
        milliseconds.Sort();
        yield return new Figure(name, "ms", none, milliseconds);
        yield return new Figure(name + ", 99 %", "ms", none, [milliseconds[milliseconds.Count * 99 / 100]]);
        yield return new Figure(name + ", 99.9 %", "ms", goal, [milliseconds[milliseconds.Count * 999 / 1000]]);
    }

    private static async Task<ILine> OpenAsync(BoardBehindTerminal board, Machine machine, SerialLineOptions options) =>
        await SerialLines.OpenAsync(board.PortName, machine.Baud, options, TimeProvider.System, CancellationToken.None)
            is SerialOpening.Opened opened
            ? opened.Line
            : throw new InvalidOperationException("The pseudo-terminal cannot be opened.");

    // Milliseconds; null where the run ended by itself before the contact opened.
    private static async Task<(double Asked, double Written, double Arrived)?> TryAsync(
        ProvedJob job, BoardBehindTerminal board, ILine line, StampedOutput stamped, BusyCores busy, string folder, int trial, int waitMs)
    {
        using var pins = new SimulatedPins();
        pins.Set(EStop, isClosed: true);
        pins.Set(Hold, isClosed: true);
        using var station = OperatorStation.Open("bench", Wiring, _ => new GpioController(pins), TimeProvider.System, _ => { });
        var working = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        using var journal = new FileJournal(Path.Combine(folder, $"{trial}.jsonl"));
        var settings = new RunSettings { RunId = (ushort)(trial + 1), Token = (ushort)(trial * 0x0107), Device = "bench", EndsHeldRun = true };
        var run = new RunController(job, settings,
            journal, new Working(station, working));
        station.Operate(run.Request);
        var end = Task.Run(() => RunLoop.RunAsync(run, line, TimeProvider.System));
        if (await Task.WhenAny(working.Task, end) == end)
            return null;
        busy.Begin(); // not before: to begin a run on busy cores takes seconds, and is not what is measured
        await Task.Delay(waitMs);
        board.TakeStop();
        stamped.TakeStop();
        var opened = Stopwatch.GetTimestamp();
        pins.Set(EStop, isClosed: false);
        while (stamped.IsAwaited && !end.IsCompleted)
            await Task.Delay(1);
        busy.End();
        await end;
        var stop = stamped.TakeStop();
        return (Milliseconds(opened, stop.Asked), Milliseconds(opened, stop.Taken), Milliseconds(opened, board.TakeStop()));
    }

    private static double Milliseconds(long from, long to) => to > 0 ? Stopwatch.GetElapsedTime(from, to).TotalMilliseconds : double.PositiveInfinity;

    // So quick that a run works soon after it begins.
    private static Machine Quick(Machine machine)
    {
        Axis Brisk(Axis axis) => axis with { TopSpeedMmS = 200, AccelMmS2 = 20_000, ReferenceSpeedMmS = 200, EndstopGapMm = 0.2, StepsPerMm = 20, PitchMm = 1 };
        return machine with { X = Brisk(machine.X), Y = Brisk(machine.Y) };
    }

    private sealed class Working(OperatorStation station, TaskCompletionSource working) : IRunWatcher
    {
        public void StateChanged(RunProgress progress)
        {
            station.StateChanged(progress);
            if (progress.State == MachineState.Execute)
                working.TrySetResult();
        }

        public void Progressed(RunProgress progress) => station.Progressed(progress);

        public void Told(string words)
        {
        }
    }
}

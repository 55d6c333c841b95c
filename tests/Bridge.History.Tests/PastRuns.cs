using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Planning;
using Bridge.Runs;

namespace Bridge.History.Tests;

/// <summary>Runs of the example kite on the mock device, each with a folder of its own, gone with the test.</summary>
internal sealed class PastRuns : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    private static readonly byte[] MachineBytes = File.ReadAllBytes(Path.Combine(Vectors.Root, "examples", "machines", "cardboard-plotter.toml"));

    private int _runs;

    public static Machine Machine { get; } = MachineFile.Parse(MachineBytes, "cardboard-plotter.toml");

    public static JobFile Job { get; } = Planned();

    public string Folder { get; } = Directory.CreateTempSubdirectory("bridge-history-").FullName;

    /// <summary>Runs it, an hour after the run before, and gives the folder.</summary>
    public RunFolder Run(string faults = "", int seed = 1)
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(Machine, time, seed, MockFaults.Parse(faults));
        using var line = port.Open();
        var settings = new RunSettings { RunId = 7, Token = 300, Device = $"mock, seed {seed}", HeldPatience = TimeSpan.FromSeconds(10) };
        using var session = RunSession.Create(new RunRequest("kite.job", Job.ToBytes(), "cardboard-plotter.toml", MachineBytes, Folder, settings),
            new Nobody(), time, Noon + TimeSpan.FromHours(_runs++));
        session.RunAsync(line, _ =>
        {
            var device = new DeviceDialogue(line, time);
            return ReferencedAgain.FindAsync(device, new MachineHand(device, Machine), 301);
        }).GetAwaiter().GetResult();
        return session.Folder;
    }

    /// <summary>Goes on with it on a device that knows nothing of it, at one end of what is in doubt.</summary>
    public void GoOn(RunFolder folder, InDoubt decision)
    {
        var stopped = StoppedRun.Read(folder.Path);
        var fresh = new MockDevice(new Gantry(Machine, seed: 2));
        var point = (ResumePoint.AfterRestart)ResumePoint.Of(stopped.History, stopped.Job, fresh.Status);
        var from = decision == InDoubt.Redo ? point.Doubt!.Redo : point.Doubt!.Skip;
        var time = new VirtualTime();
        using var port = MockPort.Of(Machine, time, seed: 2);
        using var line = port.Open();
        using var session = RunSession.GoOn(stopped, Resumption.AfterRestart(stopped.History, stopped.Job, point, from, 8),
            new RunSettings { RunId = 8, Token = 400, Device = "mock, seed 2" }, new Nobody(), time, Noon + TimeSpan.FromHours(_runs++));
        session.RunAsync(line).GetAwaiter().GetResult();
    }

    /// <summary>Cells that the job works from one on and none of those before it, by the interpreter alone; a cell worked twice is one.</summary>
    public static int CellsLeft(long done)
    {
        var (index, before, after) = (0L, new HashSet<(Cell, Head)>(), new HashSet<(Cell, Head)>());
        for (var interpreter = new Interpreter(Job.Image, Machine.Grid); interpreter.MoveNext(); index++)
            (index < done ? before : after).Add((interpreter.Current.Cell, interpreter.Current.Head));
        return after.Except(before).Count();
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static JobFile Planned()
    {
        var plan = Planner.Plan(ShapeFile.Read(Path.Combine(Vectors.Root, "examples", "shapes", "kite.csv"), new ShapeOptions()), Machine);
        return new JobFile(Machine.Grid, Machine.Digest, Image.Of(plan.Width, plan.Records));
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

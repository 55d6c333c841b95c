using Bridge.Jobs;
using Bridge.Runs;
using NSubstitute;
using Record = Bridge.Jobs.Record;

namespace Board.Tests;

/// <summary>The real host runs a job on the real firmware, and the picture drawn from the step pins is the picture that was wanted.</summary>
public sealed class HostRunTests : IDisposable
{
    private const string MachineName = "desktop-gantry.toml";

    private readonly DirectoryInfo runs = Directory.CreateTempSubdirectory("bridge-board-test-");

    [BoardFact]
    public async Task A_run_by_the_host_draws_on_the_pins_what_the_interpreter_says()
    {
        var machineBytes = File.ReadAllBytes(Path.Combine(Vectors.Root, "examples", "machines", MachineName));
        var machine = MachineFile.Parse(machineBytes, MachineName);
        var job = new JobFile(machine.Grid, machine.Digest, Image.Of(machine.Width,
        [
            Record.Patch(Head.A, new Cell(2, 2), 2, 2, PatchWay.AlongX),
            Record.Row(machine.Width, Head.B, new Cell(4, 2), 2, 2),
            Record.Row(machine.Width, Head.A, new Cell(2, 2), 0, 2, rise: true),
            Record.End,
        ]));
        using var board = new EmulatedBoard(machine);
        using var line = board.OpenLine();
        var settings = new RunSettings { RunId = 1, Token = 0x1234, Device = "emulated board" };
        var request = new RunRequest("small.job", job.ToBytes(), MachineName, machineBytes, runs.FullName, settings);
        using var session = RunSession.Create(request, Substitute.For<IRunWatcher>(), board.Clock, board.Clock.GetUtcNow());
        var end = await session.RunAsync(line);

        Assert.Equal(RunOutcome.Complete, end.Outcome);
        var wanted = WorkedCells.Of(job.Image, machine.Grid);
        var seen = new WorkedCells(machine.Grid);
        foreach (var worked in board.Gantry.Work.Worked)
            seen.Add(worked.Cell, worked.Layer, worked.Head);
        Assert.Equal((0L, 0L), (wanted.CountDifferences(seen), wanted.CountDifferences(session.Controller.Worked)));
        Assert.Equal(LayerPicture.Draw(wanted, 0), LayerPicture.Draw(seen, 0));
        Assert.Equal(LayerPicture.Draw(wanted, 1), LayerPicture.Draw(seen, 1));
    }

    public void Dispose() => runs.Delete(recursive: true);
}

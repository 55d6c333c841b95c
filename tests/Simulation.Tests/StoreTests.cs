using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;
using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>A job is stored over another one, and the supply fails at any write of lasting memory: the button then runs the old one or the new one.</summary>
public class StoreTests(ITestOutputHelper output)
{
    private const int Seeds = 2;

    [SimulationFact]
    public void A_brown_out_at_any_write_of_lasting_memory_leaves_the_old_job_or_the_new_one()
    {
        var (runs, news) = (0, 0);
        Parallel.For(1, Seeds + 1, seed =>
        {
            var (writes, isNew) = (0, false);
            for (; !isNew || writes == 0; writes++)
            {
                isNew = IsNewAfterBrownOut(seed, writes);
                Interlocked.Increment(ref runs);
                Assert.True(writes < 1000, "The new job is never there.");
            }

            Interlocked.Increment(ref news);
        });
        output.WriteLine($"{runs} brown-outs");
        Assert.Equal(Seeds, news);
        Assert.True(runs > 20 * Seeds, "A job is stored in more writes than that.");
    }

    // Gives whether the new job was run; the old one is the only other that may be.
    private static bool IsNewAfterBrownOut(int seed, int writes)
    {
        var random = new Random(seed);
        var machine = SimulatedJob.Of(seed).Machine with { X = Plain(), Y = Plain(), Z = null, Width = RecordWidth.Four };
        var (old, young) = (JobOf(machine, random, 3), JobOf(machine, random, 5));
        using var board = new Board(BoardLibrary.AsItIs, machine, random);
        var host = HostOf(board, token: 1);
        foreach (var answer in Setup(host, machine))
            Assert.Equal(Answer.Accepted, answer);
        Assert.Equal(Answer.Accepted, Store(host, old));
        board.Advance(1_000_000);
        board.FailAfterWrites(writes);
        var stored = Store(HostOf(board, token: 2), young);
        board.Advance(random.Next(1_000_000));
        board.Reset(ResetReason.BrownOut);
        Press(board, MachineState.Stopped);
        Press(board, MachineState.Idle);
        Press(board, MachineState.Complete);
        var worked = Enumerable.Range(0, board.Worked).Select(board.WorkedAt).ToList();
        var (cellsOfOld, cellsOfNew) = (CellsOf(machine, old), CellsOf(machine, young));
        Assert.True(worked.SequenceEqual(cellsOfOld) || worked.SequenceEqual(cellsOfNew),
            $"Seed {seed}, {writes} writes, {stored}: {string.Join(' ', worked.Select(position => position.Cell))}");
        return worked.SequenceEqual(cellsOfNew);

        Axis Plain() => SimulatedJob.Of(1).Machine.X;
    }

    private static Teller HostOf(Board board, ushort token) =>
        new(new BoardLine(board), () => TimeSpan.FromMicroseconds(board.Now), token);

    private static IEnumerable<Answer?> Setup(Teller host, Machine machine)
    {
        yield return host.Ask(SetupMessages.OfMachine(machine));
        foreach (var axis in SetupMessages.OfAxes(machine))
            yield return host.Ask(axis);
        foreach (var head in SetupMessages.OfHeads(machine))
            yield return host.Ask(head);
    }

    private static Answer? Store(Teller host, Image image)
    {
        var octets = image.Bytes.Span;
        var answer = host.AskPatiently(new StoreBegin((ushort)octets.Length));
        for (var offset = 0; offset < octets.Length && answer == Answer.Accepted; offset += StoreData.MaxOctets)
            answer = host.AskPatiently(new StoreData((ushort)offset, octets[offset..Math.Min(octets.Length, offset + StoreData.MaxOctets)]));
        return answer == Answer.Accepted ? host.AskPatiently(new StoreCommit(Fcs16.Of(octets))) : answer;
    }

    private static void Press(Board board, MachineState goal)
    {
        board.StartIsPressed = false;
        board.Advance(60_000);
        board.StartIsPressed = true;
        board.Advance(60_000);
        board.StartIsPressed = false;
        for (var turn = 0; turn < 2000 && board.State != goal; turn++)
            board.Advance(10_000);
        Assert.Equal(goal, board.State);
    }

    private static Image JobOf(Machine machine, Random random, int rows) => Image.Of(machine.Width,
        [.. Enumerable.Range(0, rows).Select(row => Record.Row(machine.Width, Head.A, new Cell(random.Next(6), row), 0, random.Next(1, 6))), Record.End]);

    private static List<Position> CellsOf(Machine machine, Image image)
    {
        var (cells, passes) = (new List<Position>(), new PassReader(image, machine.Grid));
        while (passes.TryNext(out var pass))
            foreach (var cell in pass.Work)
                cells.Add(pass.Entry with { Cell = cell });
        return cells;
    }
}

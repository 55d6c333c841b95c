using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;
using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>A job is stored over another one, and the supply fails in any write of lasting memory: the button then runs the old one or the new one.</summary>
public class StoreTests(ITestOutputHelper output)
{
    private const string Variable = "BRIDGE_STORE";
    private const int MostSeeds = 1000;
    private const int MostWrites = 1000;
    private const int LeastWrites = 130; // before the image: the head, the first octet erased and written

    [SimulationTheory]
    [InlineData(4, 2, 1)]
    [InlineData(8, 3, 2)]
    public void A_brown_out_in_any_write_of_lasting_memory_leaves_the_old_job_or_the_new_one(int bits, int axes, int heads)
    {
        var seed = Enumerable.Range(0, MostSeeds).First(seed => SimulatedJob.Of(seed).Machine is var machine
            && (machine.Width.AxisBits, machine.Z is null ? 2 : 3, machine.B is null ? 1 : 2) == (bits, axes, heads));
        if (Environment.GetEnvironmentVariable(Variable)?.Split('/') is [var askedSeed, var askedWrites])
        {
            if (int.Parse(askedSeed) == seed)
                IsNewAfterBrownOut(seed, int.Parse(askedWrites));
            return;
        }

        var writes = 0;
        while (!IsNewAfterBrownOut(seed, writes))
            Assert.True(++writes < MostWrites, "The new job is never there.");
        output.WriteLine($"{writes + 1} brown-outs");
        Assert.True(writes > LeastWrites, "A job is stored in more writes than that.");
    }

    // Gives whether the new job was run; the old one is the only other that may be.
    private static bool IsNewAfterBrownOut(int seed, int writes)
    {
        try
        {
            return Story(seed, writes);
        }
        catch (Exception failure)
        {
            throw new SimulationFailedException(
                Retold.Of($"Seed {seed}, {writes} writes", $"{failure}", Variable, $"{seed}/{writes}", nameof(StoreTests)));
        }
    }

    private static bool Story(int seed, int writes)
    {
        var (random, machine) = (new Random(seed), SimulatedJob.Of(seed).Machine);
        var (older, old, young) = (JobOf(machine, random, 4), JobOf(machine, random, 3), JobOf(machine, random, 5));
        using var board = new Board(BoardLibrary.AsItIs, machine, random);
        var host = HostOf(board, token: 1);
        foreach (var answer in Setup(host, machine))
            Assert.Equal(Answer.Accepted, answer);
        Assert.Equal(Answer.Accepted, Store(host, older));
        Assert.Equal(Answer.Accepted, Store(host, old));
        board.Advance(1_000_000);
        var moment = new Random(seed + writes);
        board.FailAfterWrites(writes, isWriting: moment.Next(2) == 0, erased: moment.Next(3) switch { 0 => 0, 1 => 0xFF, _ => (byte)moment.Next(256) });
        var stored = Store(HostOf(board, token: 2), young);
        board.Advance(moment.Next(1_000_000));
        board.Reset(ResetReason.BrownOut);
        Press(board, MachineState.Stopped);
        Press(board, MachineState.Idle);
        Press(board, MachineState.Complete);
        var worked = Enumerable.Range(0, board.Worked).Select(board.WorkedAt).ToList();
        var (cellsOfOld, cellsOfNew) = (CellsOf(machine, old), CellsOf(machine, young));
        Assert.True(worked.SequenceEqual(cellsOfOld) || worked.SequenceEqual(cellsOfNew),
            $"{stored}: {string.Join(' ', worked.Select(position => position.Cell))}");
        return worked.SequenceEqual(cellsOfNew);
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
        [.. Enumerable.Range(0, rows).Select(row => RowOf(machine, random, row)), Record.End]);

    private static Record RowOf(Machine machine, Random random, int row) =>
        Record.Row(machine.Width, machine.B is not null && row % 2 == 1 ? Head.B : Head.A, new Cell(random.Next(6), row), 0, random.Next(1, 6));

    private static List<Position> CellsOf(Machine machine, Image image)
    {
        var (cells, passes) = (new List<Position>(), new PassReader(image, machine.Grid));
        while (passes.TryNext(out var pass))
            foreach (var cell in pass.Work)
                cells.Add(pass.Entry with { Cell = cell });
        return cells;
    }
}

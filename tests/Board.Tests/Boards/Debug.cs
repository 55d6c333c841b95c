using Bridge.Jobs;
using Bridge.Wire;
using Record = Bridge.Jobs.Record;
namespace Board.Tests;
public class DebugTests
{
    [BoardFact]
    public void Debug_it_now()
    {
        var Four = RecordWidth.Four;
        var m = TestMachines.Plotter;
        var fast = m.X with { PitchMm = 10, TopSpeedMmS = double.Parse(Environment.GetEnvironmentVariable("SPEED") ?? "250"), AccelMmS2 = double.Parse(Environment.GetEnvironmentVariable("ACC") ?? "3000") };
        m = m with { X = fast, Y = fast };
        using var board = new EmulatedBoard(m, (100, 100, 0));
        var host = new BoardHost(board);
        var w = new StringWriter();
        host.MakeReady();
        w.WriteLine($"ready {board.Chip.Cycle} waiting {board.Chip.Serial.MostWaiting}");
        var step = new InterruptWatch(board.Chip, 11);
        var rx = new InterruptWatch(board.Chip, 18);
        var tx = new InterruptWatch(board.Chip, 19);
        board.Gantry.KeepsSteps = true;
        Record[] recs = Environment.GetEnvironmentVariable("AXES") == "1" ? [Record.Go(Head.A, new Cell(15, 0)), Record.Go(Head.A, new Cell(0, 0))] : [Record.Go(Head.A, new Cell(15, 15)), Record.Go(Head.A, new Cell(0, 5)), Record.Go(Head.A, new Cell(0, 0)), Record.End];
        var feed = host.Start(Image.Of(Four, [.. recs, Record.End]));
        feed.Until(MachineState.Complete, MachineState.Aborted);
        foreach (var (n, i) in new[] { ("step", step), ("rx", rx), ("tx", tx) }) w.WriteLine($"{n} {i.Count} avg {i.Total / (double)i.Count:F1} max {i.Longest}");
        var xs = board.Gantry.Steps.Where(s => s.Axis == 0).Select(s => s.Cycle).ToArray();
        var d = xs.Skip(1).Zip(xs, (b, a) => (int)(b - a)).ToArray();
        w.WriteLine($"steps {xs.Length} least {d.Min()}  around 3000: {string.Join(" ", d.Skip(3000).Take(30))}  start {string.Join(" ", d.Take(20))}");
        w.WriteLine($"{host.Last} waiting {board.Chip.Serial.MostWaiting} stack {board.Stack.Untouched}");
        File.WriteAllText("/tmp/exp/debug.txt", w.ToString());
    }
}

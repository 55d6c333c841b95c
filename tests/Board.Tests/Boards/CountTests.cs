using Bridge.Jobs;
using Record = Bridge.Jobs.Record;

namespace Board.Tests;

/// <summary>A stop at one cycle after another of a pen's way: no cell is counted that its steps have not reached.</summary>
public class CountTests
{
    private const int StepsOfACell = 8;
    private const ulong Stride = 14; // less than what lies between the looks that a stop could come between
    private const ulong Trials = 1600;
    private const ulong LongAfter = 6000;

    [BoardFact]
    public void No_cell_is_counted_that_the_pen_has_not_reached_whenever_the_e_stop_opens() =>
        AssertCounts((board, at) => board.Chip.At(at, () => board.Gantry.SetEStop(true)));

    [BoardFact]
    public void No_cell_is_counted_that_the_pen_has_not_reached_whenever_STOP_octets_come() =>
        AssertCounts((board, at) => board.Chip.At(at, () => board.Chip.Serial.Send([0x7F, 0x7F])));

    private static void AssertCounts(Action<EmulatedBoard, ulong> stopAt)
    {
        using var board = new EmulatedBoard(TestMachines.Fine);
        var (host, trace, cells) = (new BoardHost(board), new CellTrace(board.Chip), 0);
        board.Chip.RunFor(TimeSpan.FromMilliseconds(2)); // it puts itself together
        trace.Begin();
        trace.Worked += _ => cells++;
        host.MakeReady();
        host.Start(Image.Of(RecordWidth.Eight, [Record.Row(RecordWidth.Eight, Head.A, new Cell(0, 0), 0, 250), Record.End]));
        Assert.True(host.Until(() => cells >= 60));
        var (moment, began, counted) = (board.Chip.Snapshot(), board.Chip.Cycle, cells);
        var most = 0;
        for (var trial = 0ul; trial < Trials; trial++)
        {
            var at = began + trial * Stride;
            stopAt(board, at);
            board.Chip.RunTo(at + LongAfter);
            Assert.False(board.Gantry.AreDriversOn);
            most = Math.Max(most, cells);
            Assert.True((cells - 1) * StepsOfACell <= board.Gantry.Axes[0].Carriage,
                $"{cells} cells are counted after {board.Gantry.Axes[0].Carriage} steps, stopped {at - began} cycles later");
            moment.Restore();
            cells = counted;
        }

        Assert.True(most > counted, "The pen has reached no cell more.");
    }
}

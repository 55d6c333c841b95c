using Bridge.Jobs;
using Bridge.Wire;
using Record = Bridge.Jobs.Record;

namespace Board.Tests;

/// <summary>A board that is referenced and on its way from corner to corner and back.</summary>
internal static class MovingBoard
{
    private static readonly Image BackAndForth = Image.Of(RecordWidth.Four,
    [
        Record.Go(Head.A, new Cell(15, 15)), Record.Go(Head.A, new Cell(0, 0)), Record.Again(RecordWidth.Four, 2, 15), Record.End,
    ]);

    public static BoardHost Start(EmulatedBoard board)
    {
        var host = new BoardHost(board);
        host.MakeReady();
        host.Start(BackAndForth);
        Assert.True(host.Until(() => host.Last.State == MachineState.Execute));
        host.RunFor(TimeSpan.FromMilliseconds(60));
        Assert.True(board.Chip.Cycle - board.Gantry.LastStep < 16_000, "The board is not moving.");
        return host;
    }
}

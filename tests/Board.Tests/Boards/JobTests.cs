using Bridge.Jobs;
using Bridge.Wire;
using Record = Bridge.Jobs.Record;

namespace Board.Tests;

/// <summary>Whole jobs, seen on the pins.</summary>
public class JobTests
{
    private static readonly RecordWidth Four = RecordWidth.Four;

    [BoardFact]
    public void Pens_work_the_cells_that_the_interpreter_says_in_its_order()
    {
        var image = Image.Of(Four,
        [
            Record.Row(Four, Head.A, new Cell(1, 2), 0, 5),
            Record.Patch(Head.B, new Cell(10, 3), 4, 2, default),
            Record.Line(Head.B, new Cell(6, 8)),
            Record.Row(Four, Head.A, new Cell(8, 9), 3, 4),
            Record.End,
        ]);
        AssertWorks(TestMachines.Plotter, image);
    }

    [BoardFact]
    public void Dots_work_the_cells_that_the_interpreter_says_in_its_order()
    {
        var image = Image.Of(Four,
        [
            Record.Row(Four, Head.A, new Cell(1, 2), 0, 3),
            Record.Again(Four, 1, 1),
            Record.Patch(Head.B, new Cell(3, 3), 2, 3, default, rise: true),
            Record.Line(Head.A, new Cell(7, 1)),
            Record.Wait(Four, 1, rise: true),
            Record.Row(Four, Head.B, new Cell(5, 5), 4, 2),
            Record.End,
        ]);
        AssertWorks(TestMachines.Gantry, image);
    }

    private static void AssertWorks(Machine machine, Image image)
    {
        using var board = new EmulatedBoard(machine);
        var host = new BoardHost(board);
        host.MakeReady();
        var feed = host.Start(image);
        Assert.True(feed.Until(MachineState.Complete, MachineState.Aborted, MachineState.Held, MachineState.Stopped));
        Assert.Equal((MachineState.Complete, StateCause.JobComplete), (host.Last.State, host.Last.Cause));
        Assert.Equal(feed.Count, host.Last.RecordsDone);
        Assert.Equal(CellsOf(image, machine.Grid), board.Gantry.Work.Worked.Distinct());
        Assert.Equal(0, board.Gantry.Work.SpoiledDots);
        Assert.All(board.Gantry.Axes, axis => Assert.Equal(0, axis.StepsIntoEndstop));
        Assert.Equal((0L, 0L), (board.Gantry.StepsWithoutDrivers, board.Gantry.ShortPulses));
        Assert.All(board.Gantry.Heads, head => Assert.False(head.Works));
        Assert.InRange(board.Stack.Untouched, 200, 2048);
    }

    private static IEnumerable<WorkedPlace> CellsOf(Image image, Grid grid)
    {
        var cells = new List<WorkedPlace>();
        var interpreter = new Interpreter(image, grid);
        while (interpreter.MoveNext())
            cells.Add(new WorkedPlace(interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head));
        Assert.Null(interpreter.Fault);
        return cells.Distinct();
    }
}

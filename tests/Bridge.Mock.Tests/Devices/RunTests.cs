using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Mock.Tests;

public class RunTests
{
    private static readonly RecordWidth N = RecordWidth.Four;

    private static readonly Record[] Example =
    [
        Record.Row(N, Head.A, new Cell(1, 2), 0, 5),
        Record.Patch(Head.B, new Cell(10, 3), 4, 2, PatchWay.AlongY | PatchWay.YFalls),
        Record.Line(Head.B, new Cell(2, 9)),
        Record.Wait(N, 5),
        Record.Line(Head.A, new Cell(3, 3)),
        Record.End,
    ];

    public static IReadOnlyList<Position> CellsOf(Machine machine, params Record[] records)
    {
        var interpreter = new Interpreter(Image.Of(machine.Width, records), machine.Grid);
        var cells = new List<Position>();
        while (interpreter.MoveNext())
            cells.Add(new Position(interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head));
        Assert.Null(interpreter.Fault);
        return cells;
    }

    [Fact]
    public void A_job_is_set_up_referenced_started_and_completed()
    {
        var bench = new Bench(TestMachines.GantryOfDots);
        bench.GetReady();
        bench.Start([.. Example[..1], Example[1] with { Rise = true }, .. Example[2..]]);
        bench.Reach(MachineState.Complete);
        Assert.Equal(CellsOf(bench.Machine, [.. Example[..1], Example[1] with { Rise = true }, .. Example[2..]]), bench.Device.Gantry.Worked);
        Assert.Equal((6u, 6u, 6u, StateCause.JobComplete), (bench.Last.RecordsTaken, bench.Last.RecordsDone, bench.Last.RecordsLimit, bench.Last.Cause));
        Assert.Equal(0, bench.Device.Gantry.MovesWithoutPower);
        Assert.Equal(
            [MachineState.Clearing, MachineState.Stopped, MachineState.Resetting, MachineState.Idle, MachineState.Starting,
                MachineState.Execute, MachineState.Completing, MachineState.Complete],
            bench.StatesSaid);
    }

    [Fact]
    public void A_job_takes_as_long_as_its_timetable_says()
    {
        foreach (var machine in new[] { TestMachines.Plotter, TestMachines.GantryOfDots })
        {
            var bench = new Bench(machine);
            bench.GetReady();
            var begun = bench.Now;
            bench.Start(Example);
            bench.Reach(MachineState.Complete);
            var expected = Timetable.Of(Image.Of(N, Example), machine).Seconds;
            Assert.Equal(expected, (bench.Now - begun).TotalSeconds, 0.001 * expected);
        }
    }
}

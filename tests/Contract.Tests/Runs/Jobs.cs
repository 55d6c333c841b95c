using Bridge.Jobs;
using Bridge.Motion;

namespace Contract.Tests;

/// <summary>What a job means.</summary>
internal static class Jobs
{
    /// <summary>The cells that a job works, in order.</summary>
    public static IReadOnlyList<Position> CellsOf(Machine machine, params Record[] records)
    {
        var interpreter = new Interpreter(Image.Of(machine.Width, records), machine.Grid);
        var cells = new List<Position>();
        while (interpreter.MoveNext())
            cells.Add(new Position(interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head));
        Assert.Null(interpreter.Fault);
        return cells;
    }

    /// <summary>Cells that the first records work; `again` may not be among them.</summary>
    public static uint CellsBefore(Machine machine, Record[] records, uint count) =>
        (uint)CellsOf(machine, [.. records.Take((int)count), Record.End]).Count;

    /// <summary>How long a job takes.</summary>
    public static double SecondsOf(Machine machine, params Record[] records) =>
        Timetable.Of(Image.Of(machine.Width, records), machine).Seconds;
}

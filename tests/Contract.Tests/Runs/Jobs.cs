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

    /// <summary>The records of a job as a host streams them: each `again` unrolled.</summary>
    public static Record[] Unrolled(Machine machine, params Record[] records)
    {
        var unrolled = PassesOf(machine, records).Select(pass => pass.Record);
        return records[^1].Verb == Verb.End ? [.. unrolled, Record.End] : [.. unrolled];
    }

    /// <summary>How many acts a job takes: moves, dots, pens lowered and lifted, waits.</summary>
    public static int ActsOf(Machine machine, params Record[] records)
    {
        var acts = new Acts(machine);
        return PassesOf(machine, records).SelectMany(pass => acts.Of(pass)).Sum(act => act.Kind == ActKind.WorkDots ? 2 * act.Cells : 1);
    }

    /// <summary>How long a job takes.</summary>
    public static double SecondsOf(Machine machine, params Record[] records) =>
        Timetable.Of(Image.Of(machine.Width, records), machine).Seconds;

    private static IEnumerable<Pass> PassesOf(Machine machine, Record[] records)
    {
        var passes = new PassReader(Image.Of(machine.Width, records), machine.Grid);
        while (passes.TryNext(out var pass))
            yield return pass;
        Assert.Null(passes.Fault);
    }
}

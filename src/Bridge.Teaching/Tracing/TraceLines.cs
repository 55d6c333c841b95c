using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Teaching;

/// <summary>Which lines a trace has, and of which width.</summary>
internal static class TraceLines
{
    private const int CounterBits = 32;
    private const int RecordBits = 24;
    private const int StateBits = 5;
    private const int CellBits = 12;

    /// <summary>All lines of a machine; those of the steps and contacts may be left out.</summary>
    public static IEnumerable<(TraceSignal Signal, string Name, int Width)> Of(Machine machine, bool withMotion)
    {
        var axes = machine.Z is null ? 2 : 3;
        for (var axis = 0; axis < axes && withMotion; axis++)
            yield return (TraceSignal.StepX + axis, $"step_{"xyz"[axis]}", 1);
        for (var axis = 0; axis < axes && withMotion; axis++)
            yield return (TraceSignal.DirX + axis, $"dir_{"xyz"[axis]}", 1);
        yield return (TraceSignal.Head, "head", 1);
        if (withMotion)
            yield return (TraceSignal.Work, "work", 1);
        for (var axis = 0; axis < axes && withMotion; axis++)
            yield return (TraceSignal.EndX + axis, $"end_{"xyz"[axis]}", 1);
        if (withMotion)
            yield return (TraceSignal.EStop, "e_stop", 1);
        yield return (TraceSignal.Record, "record", RecordBits);
        yield return (TraceSignal.Counter, "counter", CounterBits);
        yield return (TraceSignal.State, "state", StateBits);
        yield return (TraceSignal.X, "x", CellBits);
        yield return (TraceSignal.Y, "y", CellBits);
        yield return (TraceSignal.Layer, "layer", CellBits);
    }

    /// <summary>Steps for a mm of each axis.</summary>
    public static Place StepsPerMm(Machine machine) => new(machine.X.StepsPerMm, machine.Y.StepsPerMm, machine.Z?.StepsPerMm ?? 1);
}

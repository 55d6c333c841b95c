using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Teaching;

/// <summary>
/// The lines as the interpreter and the motion model have them. No machine runs: the contacts stay at rest, and a hold for the operator takes no time.
/// </summary>
public static class ModelTrace
{
    /// <summary>Writes the trace of a job, of its first executed records where not all are wanted.</summary>
    /// <param name="image">The job.</param>
    /// <param name="machine">The machine; the job is for its width and grid.</param>
    /// <param name="mostPasses">How many executed records at most, repeats counted.</param>
    /// <param name="stream">Where it goes; it stays open.</param>
    /// <returns>What stopped the job; null where nothing did.</returns>
    /// <exception cref="RefusedException">More steps than a trace holds, or faster ones.</exception>
    public static JobFault? Write(Image image, Machine machine, long mostPasses, Stream stream)
    {
        using var vcd = new VcdWriter(stream, "from the interpreter and the motion model: no machine ran, endstops and e-stop are at rest",
            TraceLines.Of(machine, withMotion: true));
        using var trace = new SignalTrace(vcd, machine, TraceLines.StepsPerMm(machine));
        var passes = new ActingReader(image, machine);
        var now = 0.0;
        trace.Set(TraceSignal.State, (int)MachineState.Execute);
        for (var count = 0L; count < mostPasses && passes.TryNext(out var pass, out var acts); count++)
            Play(trace, pass, acts, ref now);
        foreach (var act in passes.AtEnd())
            Play(trace, act, ref now);
        trace.Set(TraceSignal.State, (int)(passes.Fault is null ? MachineState.Complete : MachineState.Stopped));
        return passes.Fault;
    }

    private static void Play(SignalTrace trace, Pass pass, IReadOnlyList<Act> acts, ref double now)
    {
        var (left, cells) = (pass.Work.Cells, pass.Work.GetEnumerator());
        trace.Set(TraceSignal.Record, pass.Index);
        trace.Set(TraceSignal.Counter, left);
        foreach (var act in acts)
        {
            trace.Begin(act, now, now);
            for (var cell = 1; cell <= act.Cells; cell++)
            {
                if (act.Kind == ActKind.WorkDots)
                    Dot(trace, now + act.SecondsAtCell(cell) - act.StandSeconds);
                trace.AdvanceTo(now + act.SecondsAtCell(cell));
                cells.MoveNext();
                At(trace, cells.Current);
                trace.Set(TraceSignal.Counter, --left);
                if (act.Kind == ActKind.WorkDots)
                    trace.Set(TraceSignal.Work, 0);
            }

            Done(trace, pass, act, ref now);
        }
    }

    private static void Play(SignalTrace trace, Act act, ref double now)
    {
        trace.Begin(act, now, now);
        Done(trace, null, act, ref now);
    }

    private static void Done(SignalTrace trace, Pass? pass, Act act, ref double now)
    {
        now += act.Seconds;
        trace.AdvanceTo(now);
        if (act.Kind is ActKind.LowerPen or ActKind.LiftPen)
            trace.Set(TraceSignal.Work, act.Kind == ActKind.LowerPen ? 1 : 0);
        else if (act.Kind == ActKind.Rise)
            trace.Set(TraceSignal.Layer, pass!.Value.Entry.Layer);
        else if (act.Kind == ActKind.ChangeHead)
            trace.Set(TraceSignal.Head, (int)pass!.Value.Entry.Head);
        else if (act.Kind == ActKind.IdleMove)
            At(trace, pass!.Value.Entry.Cell);
    }

    private static void Dot(SignalTrace trace, double at)
    {
        trace.AdvanceTo(at);
        trace.Set(TraceSignal.Work, 1);
    }

    private static void At(SignalTrace trace, Cell cell)
    {
        trace.Set(TraceSignal.X, cell.X);
        trace.Set(TraceSignal.Y, cell.Y);
    }
}

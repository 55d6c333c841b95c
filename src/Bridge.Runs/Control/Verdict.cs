using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>Whether the state that the machine is in ends the run, and how.</summary>
internal sealed class Verdict(long records, bool isWholeJob, DeviceView device, RunProcedure procedure, Steering steering, StopBurst stops)
{
    /// <summary>The run's end; null while it goes on.</summary>
    public RunEnd? At(TimeSpan now)
    {
        if (!stops.IsOn)
            return OfState();
        if (stops.IsDone)
            return RunEnds.Aborted(stops.Cause);
        return stops.IsOverdue(now) ? RunEnds.AbortUnconfirmed("it did not say so in time") : null;
    }

    private RunEnd? OfState() => device.State switch
    {
        MachineState.Complete when device.HasRun && device.RecordsDone != records => RunEnds.EndedEarly(),
        MachineState.Complete when device.HasRun => isWholeJob ? RunEnds.Complete() : steering.EndWanted ?? RunEnds.LayerDone(),
        MachineState.Aborted when procedure.HasLeftAborted => RunEnds.Aborted(device.Cause),
        MachineState.Stopped when device.HasRun && !steering.IsStopping => RunEnds.Stopped(device.Cause),
        _ => steering.End,
    };
}

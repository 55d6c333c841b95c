using Bridge.Mock;
using Bridge.Motion;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>A run of the small job on a scripted device.</summary>
internal sealed class ScriptedRig
{
    public ScriptedRig(RunSettings? settings = null, Action<ScriptedDevice>? script = null, byte queue = 16)
    {
        Device = new ScriptedDevice(Time) { QueueRecords = queue };
        script?.Invoke(Device);
        Line = new WatchedLine(Device, Time);
        Run = new RunController(ProvedJob.Of(Examples.SmallJob, Examples.Gantry), settings ?? Rig.Settings, Journal, Watcher);
    }

    public VirtualTime Time { get; } = new();

    public ScriptedDevice Device { get; }

    public WatchedLine Line { get; }

    public MemoryJournal Journal { get; } = new();

    public Onlooker Watcher { get; } = new();

    public RunController Run { get; }

    public static TimeSpan Answer => Examples.Gantry.TimeOuts.Answer;

    /// <summary>How long a Stop is waited for.</summary>
    public static TimeSpan StopPatience => Rig.Settings.StopPatience + Stopping.Longest(Examples.Gantry);

    /// <summary>A Hold is asked for in the run, and the device refuses it every time.</summary>
    public static ScriptedRig WithoutHold()
    {
        var rig = new ScriptedRig(script: device =>
        {
            device.Executes = false;
            device.Refuses = (type, before) => type == MessageType.Command && before is > 2 and < 40 ? Wire.Answer.WrongState : null;
        });
        rig.Watcher.OnState = state =>
        {
            if (state == MachineState.Execute)
                rig.Run.Request(MachineCommand.Hold);
        };
        return rig;
    }

    public RunEnd ToEnd()
    {
        var run = RunLoop.RunAsync(Run, Line, Time);
        Assert.True(run.IsCompleted, "Virtual time passes within the loop.");
        return run.GetAwaiter().GetResult();
    }
}

using Bridge.Mock;

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

    public RunEnd ToEnd()
    {
        var run = RunLoop.RunAsync(Run, Line, Time);
        Assert.True(run.IsCompleted, "Virtual time passes within the loop.");
        return run.GetAwaiter().GetResult();
    }
}

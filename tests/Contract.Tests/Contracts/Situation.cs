using Bridge.Jobs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Brings a plotter into a state, by the means that a host and hands have.</summary>
internal static class Situation
{
    public static readonly RecordWidth N = RecordWidth.Four;

    /// <summary>States that last until something happens, or so long that a host can say something in them.</summary>
    public static MachineState[] Lasting { get; } =
    [
        MachineState.Aborted, MachineState.Stopped, MachineState.Resetting, MachineState.Idle, MachineState.Execute, MachineState.Suspending,
        MachineState.Suspended, MachineState.Holding, MachineState.Held, MachineState.Stopping, MachineState.Completing, MachineState.Complete,
    ];

    /// <summary>Those of them in which a host is needed.</summary>
    public static MachineState[] Moving { get; } =
    [
        MachineState.Resetting, MachineState.Execute, MachineState.Suspending, MachineState.Suspended,
    ];

    /// <summary>A long job: two rows, a patch and the end.</summary>
    public static Record[] Job { get; } =
    [
        Record.Row(N, Head.A, new Cell(0, 0), 0, 16), Record.Patch(Head.A, new Cell(2, 2), 4, 3, PatchWay.AlongX), Record.End,
    ];

    /// <summary>A state and the command that leads from it into an acting one.</summary>
    public static (MachineState Before, MachineCommand Into) Into(MachineState acting) => acting switch
    {
        MachineState.Clearing => (MachineState.Aborted, MachineCommand.Clear),
        MachineState.Resetting => (MachineState.Stopped, MachineCommand.Reset),
        MachineState.Starting => (MachineState.Idle, MachineCommand.Start),
        MachineState.Holding => (MachineState.Execute, MachineCommand.Hold),
        MachineState.Unholding => (MachineState.Held, MachineCommand.Unhold),
        MachineState.Suspending => (MachineState.Execute, MachineCommand.Suspend),
        MachineState.Unsuspending => (MachineState.Suspended, MachineCommand.Unsuspend),
        MachineState.Completing => (MachineState.Execute, MachineCommand.Complete),
        MachineState.Stopping => (MachineState.Idle, MachineCommand.Stop),
        MachineState.Aborting => (MachineState.Execute, MachineCommand.Abort),
        _ => throw new ArgumentOutOfRangeException(nameof(acting)),
    };

    public static void Bring(this Host host, MachineState state)
    {
        switch (state)
        {
            case MachineState.Aborted:
                host.SetUp();
                host.Tell(MachineCommand.Abort);
                break;
            case MachineState.Stopped:
                host.SetUp();
                break;
            case MachineState.Resetting:
                host.SetUp();
                host.Tell(MachineCommand.Reset);
                break;
            case MachineState.Idle:
                host.GetReady();
                host.Tell(new Begin(9, (uint)Job.Length));
                host.TellRecords(0, Job); // what it would begin with, so that Execute lasts
                break;
            default:
                host.GetReady();
                BringIntoRun(host, state);
                break;
        }

        host.Reach(state);
        Assert.Equal(state, host.Last.State);
        host.Said.Clear();
    }

    private static void BringIntoRun(Host host, MachineState state)
    {
        host.Start(Job);
        host.ReachCells(3);
        if (state is MachineState.Suspending or MachineState.Suspended)
            host.Tell(MachineCommand.Suspend);
        if (state is MachineState.Holding or MachineState.Held)
            host.Tell(MachineCommand.Hold);
        if (state is MachineState.Stopping)
            host.Tell(MachineCommand.Stop);
    }
}

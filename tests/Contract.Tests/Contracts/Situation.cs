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

    public static void Bring(this Host host, MachineState state)
    {
        host.SetUp();
        switch (state)
        {
            case MachineState.Aborted:
                host.Tell(MachineCommand.Abort);
                break;
            case MachineState.Stopped:
                break;
            case MachineState.Resetting:
                host.Tell(MachineCommand.Reset);
                break;
            case MachineState.Idle:
                host.Tell(MachineCommand.Reset);
                host.Reach(MachineState.Idle);
                host.Tell(new Begin(9, 2));
                break;
            default:
                host.Tell(MachineCommand.Reset);
                host.Reach(MachineState.Idle);
                BringIntoRun(host, state);
                break;
        }

        host.Reach(state);
        Assert.Equal(state, host.Last.State);
        host.Said.Clear();
    }

    private static void BringIntoRun(Host host, MachineState state)
    {
        if (state is MachineState.Suspending or MachineState.Suspended)
        {
            Assert.Equal(Answer.Accepted, host.Tell(new Begin(9, 2)));
            Assert.Equal(Answer.Accepted, host.TellRecords(0, Job[0]));
            Assert.Equal(Answer.Accepted, host.Tell(MachineCommand.Start));
            return;
        }

        host.Start(Job);
        host.ReachCells(3);
        if (state is MachineState.Holding or MachineState.Held)
            host.Tell(MachineCommand.Hold);
        if (state is MachineState.Stopping)
            host.Tell(MachineCommand.Stop);
    }
}

using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Panel.Tests;

/// <summary>Stop and Abort that come while the hand is at something else, asked for at each moment there is.</summary>
public sealed class HandAtRestTests
{
    [Fact]
    public async Task Abort_leaves_the_motors_off_whenever_it_is_asked_for_after_a_Stop()
    {
        using var desks = new WatchedDesks();
        await Ready(desks.Hand, desks);
        for (var moment = 0; moment < 60; moment++)
        {
            var looks = 0;
            var isAsked = false;
            desks.Looked = () =>
            {
                if (looks == 0)
                    desks.Hand.TryCommand(MachineCommand.Stop);
                if (looks++ == moment)
                    isAsked = desks.Hand.TryCommand(MachineCommand.Abort);
            };
            await WatchedDesks.Until(() => Volatile.Read(ref isAsked), () => $"It was not asked for at look {moment} of {looks}.");
            await desks.UntilState(MachineState.Aborted, $"though Abort was asked for at look {moment}");
            await Referenced(desks.Hand, desks);
        }

        await desks.Hand.LeaveAsync();
    }

    [Fact]
    public async Task Stop_stops_a_machine_that_another_program_has_left_in_Idle()
    {
        using var desks = new WatchedDesks();
        await Ready(desks.Hand, desks);
        var next = desks.HandOfAnother();
        Assert.Null(await next.TryConnectAsync(new HandWish("Connect", "mock", null, null)));
        await WatchedDesks.Until(() => next.TryMove("page", 1, AxisName.X, isUp: true) is null, () => "It is not at the machine.");
        Assert.True(next.TryCommand(MachineCommand.Stop));
        await desks.UntilState(MachineState.Stopped);
        Assert.NotNull(next.TryMove("page", 1, AxisName.X, isUp: true));
        await next.LeaveAsync();
    }

    [Fact]
    public async Task Stop_that_is_asked_for_twice_is_still_a_controlled_stop()
    {
        using var desks = new WatchedDesks();
        await Ready(desks.Hand, desks);
        var isAsked = false;
        desks.Looked = () =>
        {
            if (!isAsked)
                isAsked = desks.Hand.TryCommand(MachineCommand.Stop) && desks.Hand.TryCommand(MachineCommand.Stop);
        };
        await desks.UntilState(MachineState.Stopped);
        await desks.Hand.LeaveAsync();
        Assert.Equal(MachineState.Stopped, desks.State);
    }

    private static async Task Ready(HandDesk hand, WatchedDesks desks)
    {
        Assert.Null(await hand.TryConnectAsync(new HandWish("Connect", "mock", null, null)));
        await desks.UntilState(MachineState.Aborted);
        await Referenced(hand, desks);
    }

    private static async Task Referenced(HandDesk hand, WatchedDesks desks)
    {
        await WatchedDesks.Until(() => hand.TryCommand(MachineCommand.Clear), () => "Clear is not taken.");
        await desks.UntilState(MachineState.Stopped);
        await WatchedDesks.Until(() => hand.TryCommand(MachineCommand.Reset), () => "Reset is not taken.");
        await desks.UntilState(MachineState.Idle);
    }
}

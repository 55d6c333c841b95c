using Bridge.Wire;

namespace Board.Tests;

/// <summary>A firmware that hangs, and a line that says anything.</summary>
public class TroubleTests
{
    [BoardFact]
    public void A_firmware_that_hangs_is_reset_and_wakes_aborted_with_nothing_moving()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        MovingBoard.Start(board);
        board.Chip.Hang();
        Assert.True(board.Chip.RunUntil(() => board.Chip.WatchdogResets > 0, TimeSpan.FromMilliseconds(100)));
        var steps = board.Gantry.StepEdges;
        var host = new BoardHost(board);
        Assert.True(host.Open(0x5555));
        Assert.Equal((4, MachineState.Aborted), ((int)host.Link.Welcome!.Value.ResetReason, host.Link.Welcome.Value.State));
        Assert.True(host.Until(() => host.Heard.Count > 0));
        Assert.Equal(StateCause.Watchdog, host.Last.Cause);
        host.RunFor(TimeSpan.FromMilliseconds(200));
        Assert.Equal((1, steps, false), (board.Chip.WatchdogResets, board.Gantry.StepEdges, board.Gantry.AreDriversOn));
    }

    [BoardFact]
    public void A_reset_in_motion_moves_nothing_and_forgets_the_reference()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        MovingBoard.Start(board);
        board.Chip.Reset(ResetCause.External);
        var steps = board.Gantry.StepEdges;
        var host = new BoardHost(board);
        Assert.True(host.Open(0x5555));
        host.RunFor(TimeSpan.FromMilliseconds(200));
        Assert.Equal((MachineState.Aborted, BoardInputs.None, steps), (host.Last.State, host.Last.Inputs, board.Gantry.StepEdges));
    }

    /// <summary>Ten times, so that it is a million in all.</summary>
    [BoardTheory]
    [InlineData(328)]
    [InlineData(329)]
    [InlineData(330)]
    [InlineData(331)]
    [InlineData(332)]
    [InlineData(333)]
    [InlineData(334)]
    [InlineData(335)]
    [InlineData(336)]
    [InlineData(337)]
    public void A_hundred_thousand_random_octets_leave_the_board_still_and_answering(int seed)
    {
        var octets = new byte[100_000];
        new Random(seed).NextBytes(octets);
        var says = octets.AsSpan().IndexOf([(byte)0x7F, (byte)0x7F]) >= 0
            ? (MachineState.Aborted, StateCause.StopOctets)
            : (MachineState.Idle, StateCause.Operator);
        using var board = new EmulatedBoard(TestMachines.Plotter);
        var host = new BoardHost(board);
        host.MakeReady();
        var steps = board.Gantry.StepEdges;
        foreach (var part in octets.Chunk(1000))
        {
            board.Chip.Serial.Send(part);
            board.Chip.RunTo(board.Chip.Serial.LineFree);
        }
        Assert.Equal(steps, board.Gantry.StepEdges);
        Assert.InRange(board.Chip.Serial.MostWaiting, 1, AvrSerial.ReceiverHolds);
        Assert.InRange(board.Stack.Untouched, 200, 2048);
        var another = new BoardHost(board);
        Assert.True(another.Open(0x1234));
        another.RunFor(TimeSpan.FromMilliseconds(150));
        Assert.Equal(says, (another.Last.State, another.Last.Cause));
    }
}

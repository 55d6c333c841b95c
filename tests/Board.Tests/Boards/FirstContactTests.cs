using Bridge.Wire;

namespace Board.Tests;

/// <summary>From power-on to a board that is referenced.</summary>
public class FirstContactTests
{
    [BoardTheory]
    [InlineData(ResetCause.PowerOn, 1, StateCause.PowerOn)]
    [InlineData(ResetCause.External, 2, StateCause.PowerOn)]
    [InlineData(ResetCause.BrownOut, 3, StateCause.PowerOn)]
    [InlineData(ResetCause.Watchdog, 4, StateCause.Watchdog)]
    [InlineData(ResetCause.None, 0, StateCause.PowerOn)]
    [InlineData(ResetCause.PowerOn | ResetCause.External | ResetCause.BrownOut, 1, StateCause.PowerOn)]
    public void A_board_wakes_aborted_and_says_why_it_was_reset(ResetCause cause, byte reason, StateCause because)
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        board.Chip.Reset(cause);
        var host = new BoardHost(board);
        Assert.True(host.Open());
        Assert.Equal((reason, MachineState.Aborted), ((byte)host.Link.Welcome!.Value.ResetReason, host.Link.Welcome.Value.State));
        Assert.True(host.Until(() => host.Heard.Count > 0));
        Assert.Equal(because, host.Last.Cause);
    }

    [BoardFact]
    public void Nothing_moves_after_a_reset_whatever_the_inputs_do()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        board.Chip.RunFor(TimeSpan.FromMilliseconds(20));
        board.Gantry.SetStartButton(true);
        board.Gantry.SetEStop(true);
        board.Chip.RunFor(TimeSpan.FromMilliseconds(20));
        board.Gantry.SetEStop(false);
        board.Gantry.SetStartButton(false);
        board.Gantry.CutWire(0, true);
        board.Chip.RunFor(TimeSpan.FromMilliseconds(20));
        Assert.Equal(0, board.Gantry.StepEdges);
        Assert.False(board.Gantry.AreDriversOn);
        Assert.All(board.Gantry.Heads, head => Assert.Equal(0, head.PulseUs));
    }

    [BoardFact]
    public void Referencing_finds_the_machine_from_anywhere_and_goes_home()
    {
        foreach (var start in new[] { (700, 900, 0), (-80, 1280, 0), (-81, 1281, 0), (1199, -79, 0) })
        {
            using var board = new EmulatedBoard(TestMachines.Plotter, start);
            var host = new BoardHost(board);
            host.MakeReady();
            Assert.Equal((0, 0), (board.Gantry.Axes[0].Carriage, board.Gantry.Axes[1].Carriage));
            Assert.Equal(BoardInputs.ReferencedX | BoardInputs.ReferencedY, host.Last.Inputs);
            Assert.All(board.Gantry.Axes, axis => Assert.Equal(0, axis.StepsIntoEndstop));
            AssertClean(board);
        }
    }

    [BoardFact]
    public void Three_axes_are_referenced()
    {
        using var board = new EmulatedBoard(TestMachines.Gantry);
        var host = new BoardHost(board);
        host.MakeReady();
        Assert.All(board.Gantry.Axes, axis => Assert.Equal(0, axis.Carriage));
        AssertClean(board);
    }

    private static void AssertClean(EmulatedBoard board)
    {
        Assert.Equal((0L, 0L, 0L), (board.Gantry.StepsWithoutDrivers, board.Gantry.ShortPulses, board.Gantry.StepsOfNoAxis));
        Assert.InRange(board.Chip.Serial.MostWaiting, 0, AvrSerial.ReceiverHolds);
    }
}

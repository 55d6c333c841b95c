using Bridge.Wire;

namespace Board.Tests;

/// <summary>What stops the board, seen on its pins. The bounds are those of the board's table; the bench measures the worst of many trials.</summary>
public class StopTests
{
    [BoardFact]
    public void After_the_e_stop_opens_no_step_is_made_beyond_the_bound() => AssertNoStepAfter(10,
        (board, at) => board.Chip.At(at, () => board.Gantry.SetEStop(true)), StateCause.EStop);

    [BoardFact]
    public void After_two_STOP_octets_no_step_is_made_beyond_the_bound() => AssertNoStepAfter(30,
        (board, at) => board.Chip.At(at - 2 * AvrSerial.OctetCycles, () => board.Chip.Serial.Send([0x7F, 0x7F])), StateCause.StopOctets);

    [BoardFact]
    public void Releasing_the_e_stop_starts_nothing_and_permits_clear()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        var host = MovingBoard.Start(board);
        board.Gantry.SetEStop(true);
        Assert.True(host.Until(() => host.Last.State == MachineState.Aborted));
        Assert.Equal(Answer.CausePresent, host.Ask(MachineCommand.Clear));
        board.Gantry.SetEStop(false);
        var steps = board.Gantry.StepEdges;
        host.RunFor(TimeSpan.FromMilliseconds(200));
        Assert.Equal((MachineState.Aborted, steps, false), (host.Last.State, board.Gantry.StepEdges, board.Gantry.AreDriversOn));
        Assert.Equal(Answer.Accepted, host.Ask(MachineCommand.Clear));
        Assert.Equal(BoardInputs.None, host.Last.Inputs & (BoardInputs.ReferencedX | BoardInputs.ReferencedY));
    }

    [BoardFact]
    public void A_short_press_of_the_e_stop_is_remembered()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        var host = MovingBoard.Start(board);
        var now = board.Chip.Cycle;
        board.Chip.At(now + 100, () => board.Gantry.SetEStop(true));
        board.Chip.At(now + 116, () => board.Gantry.SetEStop(false)); // 1 us
        board.Chip.RunTo(now + 16 * 50);
        var steps = board.Gantry.StepEdges;
        Assert.True(host.Until(() => host.Last.State == MachineState.Aborted));
        Assert.Equal((StateCause.EStop, steps), (host.Last.Cause, board.Gantry.StepEdges));
    }

    [BoardTheory]
    [InlineData(0)]
    [InlineData(1)]
    public void A_cut_wire_of_an_endstop_stops_the_motion_at_once(int axis)
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        var host = MovingBoard.Start(board);
        var cut = board.Chip.Cycle;
        board.Gantry.CutWire(axis, true);
        Assert.True(host.Until(() => host.Last.State == MachineState.Aborted));
        Assert.Equal(StateCause.EndstopHit, host.Last.Cause);
        Assert.InRange(AvrChip.Microseconds(board.Gantry.LastStep < cut ? 0 : board.Gantry.LastStep - cut), 0, 10);
        Assert.False(board.Gantry.AreDriversOn);
    }

    [BoardFact]
    public void Not_one_step_is_made_into_a_closed_endstop()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        var host = MovingBoard.Start(board);
        board.Gantry.Push(0, -100); // the carriage slips: the endstop comes before the first cell
        Assert.True(host.Until(() => host.Last.State == MachineState.Aborted));
        Assert.Equal(StateCause.EndstopHit, host.Last.Cause);
        Assert.Equal(0, board.Gantry.Axes[0].StepsIntoEndstop);
    }

    [BoardFact]
    public void A_silent_line_holds_and_its_return_starts_nothing()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        var host = MovingBoard.Start(board);
        board.Chip.RunFor(TestMachines.LineSilence + TimeSpan.FromMilliseconds(150));
        var steps = board.Gantry.StepEdges;
        board.Chip.RunFor(TimeSpan.FromMilliseconds(100));
        Assert.Equal(steps, board.Gantry.StepEdges);
        Assert.True(host.Open(0x4322));
        host.RunFor(TimeSpan.FromMilliseconds(300));
        Assert.Equal((MachineState.Held, StateCause.LineSilent), (host.Last.State, host.Last.Cause));
        Assert.Equal(steps, board.Gantry.StepEdges);
        Assert.True(board.Gantry.AreDriversOn);
    }

    private static void AssertNoStepAfter(double boundUs, Action<EmulatedBoard, ulong> stopAt, StateCause cause)
    {
        var phases = new Random(20260); // a fixed seed: the phases are the same in every run
        for (var trial = 0; trial < 6; trial++)
        {
            using var board = new EmulatedBoard(TestMachines.Plotter);
            var host = MovingBoard.Start(board);
            var at = board.Chip.Cycle + 2000 + (ulong)phases.Next(20_000);
            stopAt(board, at);
            board.Chip.RunTo(at + 16 * 5000);
            Assert.True(board.Gantry.LastStep > at - 16_000, "The board was not moving.");
            var late = board.Gantry.LastStep < at ? 0 : board.Gantry.LastStep - at + AvrChip.InterruptEntryCycles;
            Assert.InRange(AvrChip.Microseconds(late), 0, boundUs);
            Assert.False(board.Gantry.AreDriversOn);
            Assert.True(host.Until(() => host.Last.State == MachineState.Aborted));
            Assert.Equal(cause, host.Last.Cause);
        }
    }
}

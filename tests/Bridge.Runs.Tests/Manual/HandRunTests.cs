using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class HandRunTests
{
    [Fact]
    public async Task It_goes_to_cells_and_works_each_once_with_the_head_that_was_asked()
    {
        using var rig = await HandRig.Referenced(Examples.Gantry);
        var run = new HandRun(rig.Hand, rig.Device, 5);
        Assert.True(await run.GoAsync(new Position(new Cell(3, 4), 0, Head.A)), rig.Hand.Trouble);
        Assert.Empty(rig.Gantry.Worked);
        Assert.True(await run.WorkAsync(Head.A), rig.Hand.Trouble);
        Assert.True(await run.GoAsync(new Position(new Cell(5, 1), 2, Head.B)), rig.Hand.Trouble);
        Assert.True(await run.WorkAsync(Head.B), rig.Hand.Trouble);
        Position[] cells = [new(new Cell(3, 4), 0, Head.A), new(new Cell(5, 1), 2, Head.B)];
        Assert.Equal(cells, rig.Gantry.Worked);
        Assert.Equal(cells[1], run.At);
        Assert.Null(rig.Hand.Trouble);
    }

    [Theory]
    [InlineData(16, 0, 0, "(16, 0) on layer 0 is outside the grid.")]
    [InlineData(0, 16, 0, "(0, 16) on layer 0 is outside the grid.")]
    [InlineData(1, 2, 16, "(1, 2) on layer 16 is outside the grid.")]
    public async Task A_place_outside_the_grid_is_refused_and_nothing_moves(int x, int y, int layer, string words)
    {
        using var rig = await HandRig.Referenced(Examples.Gantry);
        var run = new HandRun(rig.Hand, rig.Device, 5);
        Assert.False(await run.GoAsync(new Position(new Cell(x, y), layer, Head.A)));
        Assert.Equal(words, rig.Hand.Trouble);
        Assert.Equal((MachineState.Idle, default(Position)), (rig.Hand.Status!.Value.State, run.At));
    }

    [Fact]
    public async Task A_lower_layer_is_refused_with_what_to_do()
    {
        using var rig = await HandRig.Referenced(Examples.Gantry);
        var run = new HandRun(rig.Hand, rig.Device, 5);
        Assert.True(await run.GoAsync(new Position(new Cell(1, 1), 2, Head.A)), rig.Hand.Trouble);
        Assert.False(await run.GoAsync(new Position(new Cell(1, 1), 1, Head.A)));
        Assert.Equal("It is on layer 2, and a run only goes up: end here and begin anew to go to layer 1.", rig.Hand.Trouble);
    }

    [Fact]
    public async Task A_machine_that_held_while_a_person_thought_goes_on_with_nothing_repeated()
    {
        using var rig = await HandRig.Referenced();
        var run = new HandRun(rig.Hand, rig.Device, 5);
        Assert.True(await run.WorkAsync(Head.A), rig.Hand.Trouble);
        await rig.Device.PassAsync(TimeSpan.FromMinutes(2));
        Assert.Equal((MachineState.Held, StateCause.Starved), (rig.Hand.Status?.State, rig.Hand.Status?.Cause));
        Assert.True(await run.GoAsync(new Position(new Cell(2, 0), 0, Head.A)), rig.Hand.Trouble);
        Assert.True(await run.WorkAsync(Head.A), rig.Hand.Trouble);
        Assert.Equal([new Cell(0, 0), new Cell(2, 0)], rig.Gantry.Worked.Select(at => at.Cell));
    }

    [Fact]
    public async Task An_e_stop_on_the_way_ends_it_and_the_place_is_not_claimed()
    {
        using var rig = await HandRig.Referenced();
        var run = new HandRun(rig.Hand, rig.Device, 5);
        rig.After(0.3, () => rig.Gantry.PressEStop());
        Assert.False(await run.GoAsync(new Position(new Cell(15, 15), 0, Head.A)));
        Assert.Equal("The machine is Aborted: the e-stop is pressed or its wire is cut.", rig.Hand.Trouble);
        Assert.Equal(default, run.At);
        Assert.False(await run.WorkAsync(Head.A));
    }

    [Fact]
    public async Task After_an_interrupt_nothing_more_is_begun()
    {
        using var rig = await HandRig.Referenced();
        rig.Hand.Interrupt();
        Assert.False(await new HandRun(rig.Hand, rig.Device, 5).WorkAsync(Head.A));
        Assert.Equal(MachineState.Idle, rig.Hand.Status?.State);
        Assert.Empty(rig.Gantry.Worked);
    }

    [Fact]
    public async Task A_run_on_a_machine_without_a_reference_is_refused()
    {
        using var rig = await HandRig.Connected();
        Assert.False(await new HandRun(rig.Hand, rig.Device, 5).WorkAsync(Head.A));
        Assert.StartsWith("The device refused a run: ", rig.Hand.Trouble);
        Assert.Empty(rig.Gantry.Worked);
    }

    [Fact]
    public async Task A_pen_is_held_down_with_no_gap_until_it_is_no_longer_wanted()
    {
        using var rig = await HandRig.Referenced(PenHold.On(Examples.Plotter));
        var run = new HandRun(rig.Hand, rig.Device, 5);
        var place = new Position(new Cell(3, 4), 0, Head.B);
        Assert.True(await run.GoAsync(place), rig.Hand.Trouble);
        var (began, held) = (rig.Time.Now, TimeSpan.FromSeconds(5));
        var gaps = new List<string>();
        rig.Line.EachTurn += _ =>
        {
            if (rig.Time.Now - began is var at && at > TimeSpan.FromSeconds(0.1) && at < held && rig.Hand.Status!.Value.State != MachineState.Execute)
                gaps.Add($"{rig.Hand.Status.Value.State} at {at}");
        };

        var isAsked = true;
        bool IsWanted() => !isAsked || (isAsked = rig.Time.Now - began < held); // as a key does, it says no once
        Assert.True(await run.HoldAsync(Head.B, IsWanted, TimeSpan.FromSeconds(60)), rig.Hand.Trouble);

        Assert.Empty(gaps); // a machine that waits lifts its pen
        Assert.InRange(rig.Time.Now - began, held, held + PenHold.Slice * 2);
        Assert.InRange(rig.Gantry.Worked.Count, held / PenHold.Slice, held / PenHold.Slice + 2); // one lowering after another, and nothing between
        Assert.All(rig.Gantry.Worked, worked => Assert.Equal(place, worked));
        Assert.Equal(place, run.At);
        Assert.True(await run.GoAsync(new Position(new Cell(0, 0), 0, Head.A)), rig.Hand.Trouble);
    }

    [Fact]
    public async Task A_pen_that_nobody_lifts_goes_up_by_itself_when_its_time_is_over()
    {
        using var rig = await HandRig.Referenced(PenHold.On(Examples.Plotter));
        var run = new HandRun(rig.Hand, rig.Device, 5);
        var began = rig.Time.Now;
        Assert.True(await run.HoldAsync(Head.A, () => true, TimeSpan.FromSeconds(3)), rig.Hand.Trouble);
        Assert.InRange(rig.Time.Now - began, TimeSpan.FromSeconds(3), TimeSpan.FromSeconds(3) + PenHold.Slice * 2);
        await rig.Device.PassAsync(TimeSpan.FromSeconds(0.5));
        Assert.NotEqual(MachineState.Execute, rig.Hand.Status!.Value.State);
        Assert.False(rig.Hand.Status.Value.Working);
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => run.HoldAsync(Head.A, () => true, PenHold.Longest + TimeSpan.FromSeconds(1)));
    }

    [Fact]
    public async Task A_pen_goes_up_soon_though_the_program_dies_while_it_is_down()
    {
        using var rig = await HandRig.Referenced(PenHold.On(Examples.Plotter));
        var run = new HandRun(rig.Hand, rig.Device, 5);
        rig.After(3.2, () => throw new OperationCanceledException("The program died."));
        await Assert.ThrowsAsync<OperationCanceledException>(() => run.HoldAsync(Head.A, () => true, TimeSpan.FromSeconds(60)));
        Assert.Equal(MachineState.Execute, rig.Port.ByHand(device => device.Status.State));
        rig.Port.LetPass(PenHold.Slice * 2);
        var after = rig.Port.ByHand(device => device.Status);
        Assert.NotEqual(MachineState.Execute, after.State);
        Assert.False(after.Working);
    }

    [Fact]
    public async Task An_interrupt_lifts_a_pen_that_is_held_down()
    {
        using var rig = await HandRig.Referenced(PenHold.On(Examples.Plotter));
        var run = new HandRun(rig.Hand, rig.Device, 5);
        rig.After(2.2, () => rig.Hand.Interrupt());
        Assert.False(await run.HoldAsync(Head.A, () => true, TimeSpan.FromSeconds(60)));
        Assert.True(await rig.Hand.StopAsync(), rig.Hand.Trouble);
        Assert.Equal((MachineState.Stopped, false), (rig.Hand.Status?.State, rig.Hand.Status?.Working));
    }
}

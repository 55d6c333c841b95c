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
}

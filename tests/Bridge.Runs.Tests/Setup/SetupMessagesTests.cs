namespace Bridge.Runs.Tests;

public class SetupMessagesTests
{
    [Fact]
    public void A_machine_is_told_in_steps_and_milliseconds()
    {
        var machine = Examples.Gantry;
        var whole = SetupMessages.OfMachine(machine);
        Assert.Equal((4, 3, 2, 16, 16, 16), (whole.AxisBits, whole.Axes, whole.Heads, whole.CellsX, whole.CellsY, whole.Layers));
        Assert.Equal((500, 1500), (whole.LineTimeoutMs, whole.HeadChangeMs));
        Assert.Equal(machine.Digest.ToString()[..16], whole.Digest.ToString());

        var axes = SetupMessages.OfAxes(machine).ToList();
        Assert.Equal([false, true, false], axes.Select(axis => axis.EndstopAtMax));
        Assert.Equal([320u << 16, 320u << 16, 800u << 16], axes.Select(axis => axis.StepsPerCellQ16));
        Assert.Equal([9600u, 9600u, 4000u], axes.Select(axis => axis.TopSpeed));
        Assert.Equal([400u, 400u, 400u], axes.Select(axis => axis.EndstopGapSteps));

        var heads = SetupMessages.OfHeads(machine).ToList();
        Assert.Equal([400, 600], heads.Select(head => (int)head.FirstMs));
        Assert.Equal([0, -2000], heads.Select(head => head.OffsetXSteps));
    }

    [Fact]
    public void Every_message_for_every_example_machine_is_one_that_a_board_can_read()
    {
        var body = new byte[64];
        foreach (var machine in new[] { Examples.Gantry, Examples.Plotter, Examples.Machine("wide-plotter.toml") })
        {
            Assert.True(Wire.SetMachine.TryRead(body.AsSpan(0, SetupMessages.OfMachine(machine).Write(body)), out _));
            Assert.All(SetupMessages.OfAxes(machine), axis => Assert.True(Wire.SetAxis.TryRead(body.AsSpan(0, axis.Write(body)), out _)));
            Assert.All(SetupMessages.OfHeads(machine), head => Assert.True(Wire.SetHead.TryRead(body.AsSpan(0, head.Write(body)), out _)));
        }
    }

    [Fact]
    public void A_machine_of_one_layer_and_one_head_says_so()
    {
        var machine = Examples.Plotter with { B = null };
        Assert.Equal((2, 1), (SetupMessages.OfMachine(machine).Axes, SetupMessages.OfMachine(machine).Heads));
        Assert.Equal(2, SetupMessages.OfAxes(machine).Count());
        Assert.Equal(Wire.HeadKind.Pen, Assert.Single(SetupMessages.OfHeads(machine)).Kind);
    }
}

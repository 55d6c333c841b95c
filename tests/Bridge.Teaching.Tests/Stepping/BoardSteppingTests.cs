using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;

namespace Bridge.Teaching.Tests;

/// <summary>A board stepped, on the wire; the mock device stands in for it, in virtual time.</summary>
public sealed class BoardSteppingTests : IDisposable
{
    private static readonly Machine Low = TestJobs.Gantry; // Z finds its endstop over the far edge of Y

    private readonly VirtualTime _time = new();
    private readonly List<Position> _worked = [];
    private MockPort? _port;
    private MachineHand? _hand;

    public void Dispose() => _port?.Dispose();

    [Fact]
    public async Task Back_on_a_layer_moves_without_working_and_says_so_first()
    {
        var (board, stepper) = await Begin(TestJobs.Plotter, Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5));
        await Follow(board, stepper, stepper.Record());
        stepper.BackToTicks(2);
        var told = board.PlanBack(stepper.Stop.Position);
        Assert.Equal("The carriage moves without working from (5, 2) to (2, 2) on layer 0, with head a.", told[0]);
        Assert.EndsWith("the cells are worked a second time.", told[1]);
        Assert.Equal(5, _worked.Count);
        Assert.True(await board.BackAsync(stepper.Stop.Position, 2), board.Trouble);
        Assert.Equal(5, _worked.Count);
        Assert.Contains("(2, 2) on layer 0, head a", board.Told);
        await Follow(board, stepper, stepper.Record());
        Assert.Equal(["(1, 2)", "(2, 2)", "(3, 2)", "(4, 2)", "(5, 2)", "(3, 2)", "(4, 2)", "(5, 2)"], _worked.Select(at => $"{at.Cell}"));
    }

    [Fact]
    public async Task Where_cells_may_be_worked_only_once_those_that_are_there_are_passed_over()
    {
        var (board, stepper) = await Begin(Low, Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5));
        await Follow(board, stepper, stepper.Cell());
        await Follow(board, stepper, stepper.Cell());
        stepper.BackToTicks(0);
        Assert.Contains("passes over the cells that are there", board.PlanBack(stepper.Stop.Position)[^1]);
        Assert.True(await board.BackAsync(stepper.Stop.Position, 0), board.Trouble);
        await Follow(board, stepper, stepper.Record());
        Assert.Equal(["(1, 2)", "(2, 2)", "(3, 2)", "(4, 2)", "(5, 2)"], _worked.Select(at => $"{at.Cell}"));
        Assert.Contains("(5, 2) on layer 0, head a; 5 cells worked", board.Told);
    }

    [Fact]
    public async Task Down_a_layer_it_finds_its_zero_again_and_says_so_first()
    {
        var (board, stepper) = await Begin(Low,
            Record.Go(Head.A, new Cell(8, 3)), Record.Go(Head.A, new Cell(9, 3), rise: true), Record.Go(Head.A, new Cell(9, 4), rise: true));
        for (var record = 0; record < 3; record++)
            await Follow(board, stepper, stepper.Record());
        stepper.BackRecords(1);
        var told = board.PlanBack(stepper.Stop.Position);
        Assert.Contains("each axis to its endstop, then home, Z coming down", told[0]);
        Assert.Contains("up to layer 1 over (0, 0), and across to (9, 3)", told[1]);
        Assert.True(await board.BackAsync(stepper.Stop.Position, stepper.Ticks), board.Trouble);
        Assert.Contains("(9, 3) on layer 1, head a", board.Told);
        await Follow(board, stepper, stepper.Record());
        Assert.Contains("(9, 4) on layer 2, head a", board.Told);
    }

    [Fact]
    public async Task Down_to_where_something_stands_higher_it_does_not_go()
    {
        var (board, stepper) = await Begin(Low,
            Record.Row(RecordWidth.Four, Head.A, new Cell(8, 3), 0, 2), Record.Row(RecordWidth.Four, Head.A, new Cell(8, 3), 0, 2, rise: true));
        await Follow(board, stepper, stepper.Record());
        await Follow(board, stepper, stepper.Record());
        stepper.BackRecords(1);
        var refused = Assert.Throws<RefusedException>(() => board.PlanBack(stepper.Stop.Position));
        Assert.Contains("stand higher", refused.Message);
    }

    [Fact]
    public async Task Down_onto_what_is_built_in_the_way_home_it_does_not_go()
    {
        var (board, stepper) = await Begin(Low,
            Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 2), Record.Go(Head.A, new Cell(8, 3), rise: true));
        await Follow(board, stepper, stepper.Record());
        await Follow(board, stepper, stepper.Record());
        stepper.BackRecords(1);
        var refused = Assert.Throws<RefusedException>(() => board.PlanBack(stepper.Stop.Position));
        Assert.Contains("where the head comes down", refused.Message);
    }

    private async Task<(BoardStepping Board, Stepper Stepper)> Begin(Machine machine, params Record[] records)
    {
        _port = MockPort.Of(machine, _time, seed: 2);
        var dialogue = new DeviceDialogue(_port.Open(), _time);
        _hand = new MachineHand(dialogue, machine);
        Assert.NotNull(await _hand.ConnectAsync(token: 1));
        Assert.True(await _hand.ReferenceAsync(), _hand.Trouble);
        _port.ByHand(device => device.Gantry.CellWorked += _worked.Add);
        var run = (ushort)0;
        return (new BoardStepping(_hand, dialogue, () => ++run), new Stepper(TestJobs.Of(machine, [.. records, Record.End]).Image, machine.Grid));
    }

    private static async Task Follow(BoardStepping board, Stepper stepper, StepDone? done) =>
        Assert.True(await board.FollowAsync(done!.Value, stepper.Ticks), board.Trouble);
}

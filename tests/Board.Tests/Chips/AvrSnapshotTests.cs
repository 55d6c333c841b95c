namespace Board.Tests;

/// <summary>A chip that is taken back does the same again.</summary>
public class AvrSnapshotTests
{
    [BoardFact]
    public void A_chip_taken_back_does_the_same_again()
    {
        using var chip = TestPrograms.Start("contact");
        var edges = new List<PinEdge>();
        chip.Pins.Changed += edges.Add;
        chip.RunTo(5000);
        chip.At(9000, () => chip.Pins.Drive(new Pin('D', 2), false));
        chip.At(12_000, () => chip.Pins.Drive(new Pin('D', 2), true));
        var moment = chip.Snapshot();
        var first = Run();
        moment.Restore();
        Assert.InRange(chip.Cycle, 5000ul, 5004ul);
        Assert.Equal(first, Run());
        moment.Restore();
        Assert.Equal(first, Run());

        List<PinEdge> Run()
        {
            edges.Clear();
            chip.RunTo(30_000);
            return [.. edges];
        }
    }

    [BoardFact]
    public void Octets_on_their_way_arrive_again()
    {
        using var chip = TestPrograms.Start("echo");
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        chip.Serial.Send([1, 2, 3, 4, 5, 6]);
        chip.RunFor(TimeSpan.FromMicroseconds(50));
        var moment = chip.Snapshot();
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        var first = chip.Serial.All.ToList();
        moment.Restore();
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        Assert.Equal(first, chip.Serial.All);
        Assert.Equal([2, 3, 4, 5, 6, 7], first.Select(one => one.Octet));
    }

    [BoardFact]
    public void A_moving_board_taken_back_makes_the_same_steps_again()
    {
        using var board = new EmulatedBoard(TestMachines.Plotter);
        var host = new BoardHost(board);
        Assert.True(host.Open());
        host.TellMachine();
        Assert.Equal(Bridge.Wire.Answer.Accepted, host.Ask(Bridge.Wire.MachineCommand.Clear));
        Assert.True(host.Until(() => host.Last.State == Bridge.Wire.MachineState.Stopped));
        Assert.Equal(Bridge.Wire.Answer.Accepted, host.Ask(Bridge.Wire.MachineCommand.Reset));
        board.Gantry.KeepsSteps = true;
        for (var wait = 0; wait < 1000 && board.Gantry.Steps.Count == 0; wait++) // its pen is lifted first
            board.Chip.RunFor(TimeSpan.FromMilliseconds(1));
        board.Chip.RunFor(TimeSpan.FromMilliseconds(30));
        var moment = board.Chip.Snapshot();
        board.Chip.RunFor(TimeSpan.FromMilliseconds(20));
        var first = board.Gantry.Steps.ToList();
        Assert.True(first.Count > 50);
        moment.Restore();
        board.Chip.RunFor(TimeSpan.FromMilliseconds(20));
        Assert.Equal(first, board.Gantry.Steps);
    }
}

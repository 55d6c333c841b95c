namespace Board.Tests;

/// <summary>Levels into the emulated chip and out of it.</summary>
public class AvrPinsTests
{
    private static readonly Pin Contact = new('D', 2);
    private static readonly Pin Latch = new('B', 0);
    private static readonly Pin Follower = new('B', 1);

    [BoardFact]
    public void An_opened_contact_interrupts()
    {
        using var chip = Closed();
        PinEdge? answer = null;
        chip.Pins.Changed += edge => answer = edge.Pin == Latch ? edge : answer;
        var opened = chip.Cycle + 100;
        chip.At(opened, () => chip.Pins.Drive(Contact, true));
        chip.RunFor(TimeSpan.FromMicroseconds(100));
        Assert.NotNull(answer);
        Assert.False(answer.Value.IsHigh);
        Assert.InRange(answer.Value.Cycle - opened, 5ul, 30ul);
    }

    [BoardFact]
    public void A_closed_contact_stays_closed_while_its_port_is_written()
    {
        using var chip = Closed();
        var changes = 0;
        chip.Pins.Changed += edge => changes += edge.Pin == Contact || edge.Pin == Follower || edge.Pin == Latch ? 1 : 0;
        chip.RunFor(TimeSpan.FromMilliseconds(2));
        Assert.Equal(0, changes);
        Assert.False(chip.Pins.IsHigh(Follower));
        Assert.True(chip.Pins.IsHigh(Latch));
    }

    [BoardTheory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_contact_reads_the_same_after_a_reset(bool isOpen)
    {
        using var chip = Closed();
        chip.Pins.Drive(Contact, isOpen);
        chip.Reset(ResetCause.External);
        chip.RunFor(TimeSpan.FromMicroseconds(100));
        Assert.Equal(isOpen, chip.Pins.IsHigh(Follower));
    }

    [BoardFact]
    public void A_pin_is_an_output_where_the_program_drives_it()
    {
        using var chip = Closed();
        Assert.True(chip.Pins.IsOutput(Latch));
        Assert.True(chip.Pins.IsOutput(new Pin('D', 7)));
        Assert.False(chip.Pins.IsOutput(Contact));
    }

    private static AvrChip Closed()
    {
        var chip = TestPrograms.Start("contact");
        chip.Pins.Drive(Contact, false);
        chip.RunFor(TimeSpan.FromMicroseconds(100));
        return chip;
    }
}

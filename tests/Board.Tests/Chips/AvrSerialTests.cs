namespace Board.Tests;

/// <summary>The emulated chip's serial line, with a program that sends back every octet one higher.</summary>
public class AvrSerialTests
{
    [BoardFact]
    public void A_thousand_octets_back_to_back_come_back()
    {
        using var chip = Ready();
        var octets = Enumerable.Range(0, 1000).Select(index => (byte)(index * 7)).ToArray();
        chip.Serial.Send(octets);
        chip.RunTo(chip.Serial.LineFree + 2 * AvrSerial.OctetCycles);
        Assert.Equal(octets.Select(octet => (byte)(octet + 1)), chip.Serial.All.Select(one => one.Octet));
        Assert.Equal(1, chip.Serial.MostWaiting);
    }

    [BoardFact]
    public void An_octet_arrives_when_its_last_bit_has()
    {
        using var chip = Ready();
        var start = chip.Cycle;
        chip.Serial.Send([0x20]);
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        Assert.InRange(chip.Serial.All[0].Cycle - start, (ulong)AvrSerial.OctetCycles, AvrSerial.OctetCycles + 60ul);
    }

    [BoardFact]
    public void An_octet_without_a_stop_bit_is_told_from_a_good_one()
    {
        using var chip = Ready();
        chip.Serial.Send([0x20]);
        chip.Serial.SendMisread(0x20);
        chip.Serial.Send([0x20]);
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        Assert.Equal([0x21, 0xFF, 0x21], chip.Serial.All.Select(one => one.Octet));
    }

    [BoardFact]
    public void Octets_on_their_way_are_lost_in_a_reset()
    {
        using var chip = Ready();
        chip.Serial.Send(new byte[20]);
        chip.RunFor(TimeSpan.FromMicroseconds(100));
        chip.Reset(ResetCause.External);
        chip.Serial.Forget();
        chip.RunFor(TimeSpan.FromMilliseconds(2));
        chip.Serial.Send([1]);
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        Assert.Equal([2], chip.Serial.All.Select(one => one.Octet));
    }

    [BoardFact]
    public void An_octet_that_came_while_the_interrupt_was_masked_interrupts_when_the_mask_opens()
    {
        using var chip = TestPrograms.Start("masked");
        var rises = new List<PinEdge>();
        chip.Pins.Changed += edge =>
        {
            if (edge.IsHigh && edge.Pin.Port == 'B')
                rises.Add(edge);
        };
        chip.At(500, () => chip.Serial.Send([1]));
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        Assert.Equal([1, 0], rises.Select(edge => edge.Pin.Bit));
        Assert.InRange(rises[1].Cycle - rises[0].Cycle, 0ul, 40ul);
    }

    private static AvrChip Ready()
    {
        var chip = TestPrograms.Start("echo");
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        return chip;
    }
}

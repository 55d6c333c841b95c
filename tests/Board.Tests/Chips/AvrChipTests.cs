namespace Board.Tests;

/// <summary>What the emulated chip must do before anything that it says of the firmware is believed.</summary>
public class AvrChipTests
{
    private static readonly Pin Lamp = new('B', 5);

    [BoardFact]
    public void A_timer_toggles_a_pin_at_equal_distances()
    {
        using var chip = TestPrograms.Start("blink");
        var edges = EdgesOf(chip, Lamp);
        chip.RunFor(TimeSpan.FromMilliseconds(20));
        Assert.InRange(edges.Count, 39, 40);
        // The compare match comes every 8000 cycles; the endless loop's jump of 2 cycles is finished first.
        Assert.All(edges.Zip(edges.Skip(1)), pair => Assert.InRange(pair.Second.Cycle - pair.First.Cycle, 7998ul, 8002ul));
    }

    [BoardFact]
    public void Two_runs_of_one_program_are_the_same()
    {
        Assert.Equal(Trace(), Trace());

        static List<PinEdge> Trace()
        {
            using var chip = TestPrograms.Start("contact");
            var edges = new List<PinEdge>();
            chip.Pins.Changed += edges.Add;
            for (var time = 1000ul; time < 100_000; time += 7919)
            {
                var opens = time % 2 == 0;
                chip.At(time, () => chip.Pins.Drive(new Pin('D', 2), opens));
            }
            chip.RunTo(100_000);
            return edges;
        }
    }

    [BoardFact]
    public void It_stops_within_an_instruction_of_the_cycle_it_is_told()
    {
        using var chip = TestPrograms.Start("blink");
        for (var cycle = 1000ul; cycle < 20_000; cycle += 997)
        {
            chip.RunTo(cycle);
            Assert.InRange(chip.Cycle, cycle, cycle + 4);
        }
    }

    [BoardFact]
    public void What_is_to_be_done_at_a_cycle_is_done_then_and_in_order()
    {
        using var chip = TestPrograms.Start("blink");
        var done = new List<(int What, ulong When)>();
        chip.At(3000, () => done.Add((3, chip.Cycle)));
        chip.At(1000, () => chip.At(2000, () => done.Add((2, chip.Cycle))));
        chip.At(1000, () => done.Add((1, chip.Cycle)));
        chip.RunTo(4000);
        Assert.Equal([1, 2, 3], done.Select(one => one.What));
        Assert.All(done, one => Assert.InRange(one.When, (ulong)one.What * 1000, (ulong)one.What * 1000 + 4));
    }

    [BoardFact]
    public void Trouble_in_a_watcher_comes_out_of_the_run()
    {
        using var chip = TestPrograms.Start("blink");
        chip.Pins.Changed += _ => throw new TimeoutException("planted");
        Assert.Throws<TimeoutException>(() => chip.RunFor(TimeSpan.FromMilliseconds(2)));
    }

    [BoardFact]
    public void An_illegal_instruction_is_told()
    {
        using var chip = new AvrChip([0xFF, 0xFF, 0xFF, 0xFF]);
        Assert.Throws<AvrException>(() => chip.RunFor(TimeSpan.FromMilliseconds(10)));
    }

    [BoardFact]
    public void A_program_that_does_not_fit_is_refused() => Assert.Throws<ArgumentException>(() => new AvrChip(new byte[32 * 1024 + 1]));

    [BoardTheory]
    [InlineData(ResetCause.PowerOn)]
    [InlineData(ResetCause.External)]
    [InlineData(ResetCause.BrownOut)]
    [InlineData(ResetCause.Watchdog)]
    public void A_reset_tells_its_cause(ResetCause cause)
    {
        using var chip = TestPrograms.Start("blink");
        chip.RunFor(TimeSpan.FromMilliseconds(5));
        chip.Reset(cause);
        chip.RunFor(TimeSpan.FromMilliseconds(1));
        var shown = Enumerable.Range(0, 4).Sum(bit => chip.Pins.IsHigh(new Pin('B', bit)) ? 1 << bit : 0);
        Assert.Equal((int)cause, shown);
    }

    [BoardFact]
    public void The_watchdog_bites_and_the_program_begins_again()
    {
        using var chip = TestPrograms.Start("bitten");
        var second = EdgesOf(chip, new Pin('B', 1));
        Assert.True(chip.RunUntil(() => second.Count > 0, TimeSpan.FromMilliseconds(100)));
        Assert.Equal(1, chip.WatchdogResets);
        Assert.InRange(AvrChip.Microseconds(second[0].Cycle), 15_000, 18_000);
    }

    [BoardFact]
    public void The_EEPROM_is_read_and_written_from_both_sides_and_outlives_a_reset()
    {
        using var chip = TestPrograms.Start("lasting");
        var lamp = new Pin('B', 0);
        chip.WriteEeprom(0x0F, [1, 41, 2]);
        Assert.True(chip.RunUntil(() => chip.Pins.IsHigh(lamp), TimeSpan.FromMilliseconds(20)));
        Assert.Equal([1, 42, 2], chip.ReadEeprom(0x0F, 3));
        chip.Reset(ResetCause.External);
        chip.RunFor(TimeSpan.FromMilliseconds(20));
        Assert.Equal([1, 43, 2], chip.ReadEeprom(0x0F, 3));
    }

    private static List<PinEdge> EdgesOf(AvrChip chip, Pin pin)
    {
        var edges = new List<PinEdge>();
        chip.Pins.Changed += edge =>
        {
            if (edge.Pin == pin)
                edges.Add(edge);
        };
        return edges;
    }
}

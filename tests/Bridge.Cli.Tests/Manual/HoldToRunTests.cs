using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;

namespace Bridge.Cli.Tests;

/// <summary>Keys that are held and let go, on a mock device in virtual time.</summary>
public sealed class HoldToRunTests
{
    private static readonly ConsoleKeyInfo Right = new('\0', ConsoleKey.RightArrow, shift: false, alt: false, control: false);
    private static readonly TimeSpan MostAfterRelease = TimeSpan.FromMilliseconds(300);

    [Theory]
    [InlineData(25)]
    [InlineData(33)]
    [InlineData(50)]
    [InlineData(100)]
    public async Task Motion_goes_on_while_a_key_repeats_and_ends_within_300_ms_of_its_release(int repeatMs)
    {
        var machine = MachineInput.Read(WorkFolder.Example("machines", "cardboard-plotter.toml"), out _);
        using var device = Device.OfMock(machine, fast: true, seed: 1, MockFaults.None);
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        var hand = new MachineHand(dialogue, machine);
        Assert.NotNull(await hand.ConnectAsync(7));
        Assert.True(await hand.ReferenceAsync(), hand.Trouble);
        var start = dialogue.Now;
        var released = start + TimeSpan.FromSeconds(1);
        var pressed = 0;
        ConsoleKeyInfo? Read() => dialogue.Now < released && (dialogue.Now - start).TotalMilliseconds >= pressed * repeatMs ? Pressed() : null;
        ConsoleKeyInfo Pressed()
        {
            pressed++;
            return Right;
        }

        var keys = new HandKeys(device.Time, Read);
        Assert.Equal(ConsoleKey.RightArrow, (await keys.NextAsync(() => true, dialogue.PassAsync))?.Key);
        await hand.JogAsync(AxisName.X, isUp: true, () => keys.IsHeld(ConsoleKey.RightArrow));
        double PlaceMm() => device.Mock!.ByHand(mock => mock.Gantry.X.PlaceMm);
        var there = PlaceMm();
        Assert.True(dialogue.Now - released < MostAfterRelease, $"{dialogue.Now - released}");
        Assert.InRange(there, 0.5 * machine.X.ReferenceSpeedMmS, 1.3 * machine.X.ReferenceSpeedMmS); // it went on for about a second
        await dialogue.PassAsync(TimeSpan.FromSeconds(1));
        Assert.Equal(there, PlaceMm(), 1e-9);
    }

    [Fact]
    public async Task Another_key_ends_what_the_first_one_moves_and_comes_next()
    {
        var other = new ConsoleKeyInfo('\0', ConsoleKey.UpArrow, shift: false, alt: false, control: false);
        var waiting = new Queue<ConsoleKeyInfo>([Right, Right, other, other]);
        var keys = new HandKeys(new VirtualTime(), () => waiting.TryDequeue(out var key) ? key : null);
        Assert.Equal(Right, await keys.NextAsync(() => true, _ => Task.CompletedTask));
        Assert.False(keys.IsHeld(ConsoleKey.RightArrow));
        Assert.Equal(other, await keys.NextAsync(() => true, _ => Task.CompletedTask));
        Assert.True(keys.IsHeld(ConsoleKey.UpArrow));
    }

    [Fact]
    public async Task Keys_that_wait_are_forgotten_also_where_they_have_no_end()
    {
        var other = new ConsoleKeyInfo('\0', ConsoleKey.UpArrow, shift: false, alt: false, control: false);
        var waiting = new Queue<ConsoleKeyInfo>([Right, other, Right, Right]);
        var keys = new HandKeys(new VirtualTime(), () => waiting.TryDequeue(out var key) ? key : null);
        await keys.NextAsync(() => true, _ => Task.CompletedTask);
        Assert.False(keys.IsHeld(ConsoleKey.RightArrow)); // it has the other one in hand
        keys.Forget();
        Assert.False(keys.TryTake());
        new HandKeys(new VirtualTime(), () => Right).Forget();
    }
}

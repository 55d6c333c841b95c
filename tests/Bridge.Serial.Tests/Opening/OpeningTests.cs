using Microsoft.Extensions.Time.Testing;

namespace Bridge.Serial.Tests;

public class OpeningTests
{
    [LinuxFact]
    public async Task A_port_without_a_dtr_output_opens_all_the_same()
    {
        using var device = new PseudoTerminal();

        using var line = await Port.OpenAsync(device.PortName, Port.Once with { RaiseDtr = true });

        line.Write([1]);
        Assert.Equal([1], await device.ReadAsync(1));
    }

    [LinuxFact]
    public async Task The_line_is_handed_out_when_the_settle_pause_is_over_and_not_before()
    {
        using var device = new PseudoTerminal();
        var time = new NoticedTime();
        var opening = SerialLines.OpenAsync(
            device.PortName, 500_000, Port.Once with { SettlePause = TimeSpan.FromSeconds(2) }, time, CancellationToken.None);

        await time.PauseBegun.WaitAsync(TimeSpan.FromSeconds(5));
        time.Advance(TimeSpan.FromSeconds(1.9));
        await Task.Delay(50);
        Assert.False(opening.IsCompleted);

        time.Advance(TimeSpan.FromSeconds(0.1));
        Assert.IsType<SerialOpening.Opened>(await opening.WaitAsync(TimeSpan.FromSeconds(5))).Line.Dispose();
    }

    [LinuxFact]
    public async Task Opening_that_is_cancelled_in_the_settle_pause_leaves_the_port_free()
    {
        using var device = new PseudoTerminal();
        using var cancel = new CancellationTokenSource();
        var opening = SerialLines.OpenAsync(
            device.PortName, 500_000, Port.Once with { SettlePause = TimeSpan.FromSeconds(5) }, TimeProvider.System, cancel.Token);

        await Task.Delay(100);
        await cancel.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => opening);
        (await Port.OpenAsync(device.PortName)).Dispose();
    }

    [Fact]
    public async Task Opening_is_tried_as_often_as_the_options_say_with_pauses_that_grow()
    {
        var time = new FakeTimeProvider();
        var options = new SerialLineOptions { Tries = 4, FirstPause = TimeSpan.FromSeconds(1) };
        var opening = SerialLines.OpenAsync("/dev/no-such-port", 500_000, options, time, CancellationToken.None);

        var passed = TimeSpan.Zero;
        while (!opening.IsCompleted && passed < TimeSpan.FromMinutes(1))
        {
            await Task.Delay(5);
            time.Advance(TimeSpan.FromMilliseconds(250));
            passed += TimeSpan.FromMilliseconds(250);
        }

        Assert.IsType<SerialOpening.Refused>(await opening.WaitAsync(TimeSpan.FromSeconds(5)));
        // Three pauses of about 1, 2 and 4 s; the jitter may halve or double them, and none is longer than 5 s.
        Assert.InRange(passed, TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(15.5));
    }

    /// <summary>A clock of the test's own that tells when somebody begins to wait on it.</summary>
    private sealed class NoticedTime : FakeTimeProvider
    {
        private readonly TaskCompletionSource begun = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public Task PauseBegun => begun.Task;

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            var timer = base.CreateTimer(callback, state, dueTime, period);
            begun.TrySetResult();
            return timer;
        }
    }
}

namespace Bridge.Mock.Tests;

public class VirtualTimeTests
{
    [Fact]
    public void It_stands_until_it_is_moved_and_never_goes_back()
    {
        var time = new VirtualTime();
        var before = time.GetTimestamp();
        time.AdvanceTo(TimeSpan.FromSeconds(2));
        time.AdvanceTo(TimeSpan.FromSeconds(1));
        Assert.Equal(TimeSpan.FromSeconds(2), time.Now);
        Assert.Equal(TimeSpan.FromSeconds(2), time.GetElapsedTime(before));
        Assert.Equal(new DateTimeOffset(2000, 1, 1, 0, 0, 2, TimeSpan.Zero), time.GetUtcNow());
    }

    [Fact]
    public void Timers_fire_in_order_as_it_passes_them()
    {
        var time = new VirtualTime();
        var fired = new List<(string Name, double At)>();
        using var late = time.CreateTimer(_ => fired.Add(("late", time.Now.TotalSeconds)), null, TimeSpan.FromSeconds(3), Timeout.InfiniteTimeSpan);
        using var often = time.CreateTimer(
            _ => fired.Add(("often", time.Now.TotalSeconds)), null, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(1.5));
        using var never = time.CreateTimer(_ => fired.Add(("never", 0)), null, TimeSpan.FromSeconds(2), Timeout.InfiniteTimeSpan);
        never.Dispose();
        time.AdvanceTo(TimeSpan.FromSeconds(4));
        Assert.Equal([("often", 1.0), ("often", 2.5), ("late", 3.0), ("often", 4.0)], fired);
    }

    [Fact]
    public async Task A_delay_on_it_ends_when_it_is_passed()
    {
        var time = new VirtualTime();
        var delay = Task.Delay(TimeSpan.FromHours(1), time, CancellationToken.None);
        time.AdvanceTo(TimeSpan.FromMinutes(59));
        Assert.False(delay.IsCompleted);
        time.AdvanceTo(TimeSpan.FromMinutes(60));
        await delay;
    }
}

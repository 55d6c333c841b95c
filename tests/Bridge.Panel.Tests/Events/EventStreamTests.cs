namespace Bridge.Panel.Tests;

public sealed class EventStreamTests
{
    [Fact]
    public async Task A_clock_that_is_set_back_makes_no_page_wait()
    {
        var clock = new SetClock(TimeProvider.System);
        await using var panel = await ServedPanel.StartAsync(time: clock);
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        clock.Set = TimeSpan.FromHours(-1);
        await events.UntilLive(_ => true); // though nothing has changed: every 2 s
    }
}

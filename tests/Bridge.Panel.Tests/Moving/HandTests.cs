using System.Net;
using System.Text;
using System.Text.Json;
using Bridge.Wire;

namespace Bridge.Panel.Tests;

public sealed class HandTests
{
    [Fact]
    public async Task Connected_cleared_and_reset_it_moves_while_leave_is_given_and_rests_soon_after()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Ready(page, events);
        var start = PlaceOf(panel);
        for (var leaves = 0; leaves < 8; leaves++)
        {
            Assert.Equal(HttpStatusCode.NoContent, (await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = true, hold = 1 })).StatusCode);
            await Task.Delay(TimeSpan.FromMilliseconds(50), TimeProvider.System);
        }

        await ServedPanel.Post(page, "/api/hand/rest", new { hold = 1 });
        await Task.Delay(TimeSpan.FromMilliseconds(400), TimeProvider.System);
        var rested = PlaceOf(panel);
        Assert.True(rested > start, $"{start} to {rested} mm");
        await Task.Delay(TimeSpan.FromMilliseconds(200), TimeProvider.System);
        Assert.Equal(rested, PlaceOf(panel));
    }

    [Fact]
    public async Task Leave_that_the_network_brings_after_the_key_was_let_go_moves_nothing()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Ready(page, events);
        await ServedPanel.Post(page, "/api/hand/rest", new { hold = 5 });
        var rested = PlaceOf(panel);
        foreach (var late in (int[])[5, 4, 5])
            await ServedPanel.Problem(await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = true, hold = late }), HttpStatusCode.Conflict);
        await Task.Delay(TimeSpan.FromMilliseconds(300), TimeProvider.System);
        Assert.Equal(rested, PlaceOf(panel));
        Assert.Equal(HttpStatusCode.NoContent, (await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = true, hold = 6 })).StatusCode);
        await ServedPanel.Problem(await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = false, hold = 5 }), HttpStatusCode.Conflict);
        await ServedPanel.Problem(await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = true }), HttpStatusCode.UnprocessableEntity);
        Assert.Equal(HttpStatusCode.NoContent, (await page.PostAsync("/api/hand/rest", null)).StatusCode); // to rest is refused to nobody
    }

    [Fact]
    public async Task A_page_that_says_nothing_more_moves_nothing_more()
    {
        await using var panel = await ServedPanel.StartAsync(machineBytes: SlowMachine(40));
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Ready(page, events);
        await ServedPanel.Post(page, "/api/hand/jog", new { axis = "y", up = true, hold = 1 });
        await Task.Delay(TimeSpan.FromMilliseconds(600), TimeProvider.System); // leave of 150 ms, and at rest within 300 ms of its end
        var rested = PlaceOf(panel, y: true);
        await Task.Delay(TimeSpan.FromMilliseconds(300), TimeProvider.System);
        Assert.Equal(rested, PlaceOf(panel, y: true));
    }

    [Fact]
    public async Task A_clock_that_is_set_back_gives_no_leave_to_move_on()
    {
        var clock = new SetClock(TimeProvider.System);
        await using var panel = await ServedPanel.StartAsync(machineBytes: SlowMachine(40), time: clock);
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Ready(page, events);
        await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = true, hold = 1 });
        clock.Set = TimeSpan.FromHours(-1);
        await Task.Delay(TimeSpan.FromMilliseconds(600), TimeProvider.System); // leave of 150 ms, and at rest within 300 ms of its end
        var rested = PlaceOf(panel);
        await Task.Delay(TimeSpan.FromMilliseconds(300), TimeProvider.System);
        Assert.Equal(rested, PlaceOf(panel));
    }

    [Theory]
    [InlineData("Stop")]
    [InlineData("Abort")]
    public async Task What_waits_to_be_done_is_forgotten_by_Stop_and_by_Abort(string command)
    {
        await using var panel = await ServedPanel.StartAsync(machineBytes: SlowMachine(5));
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Connected(page, events);
        await Commanded(page, "Clear");
        await events.UntilState("Stopped");
        await Commanded(page, "Reset");
        await Commanded(page, "Reset"); // a double click
        await events.UntilState("Resetting");
        await Commanded(page, command);
        await events.UntilState("Aborted"); // a search that is stopped ends so, too
        var rested = PlaceOf(panel);
        for (var looks = 0; looks < 100; looks++)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(10), TimeProvider.System);
            Assert.Equal((MachineState.Aborted, rested), (panel.Devices.Last!.ByHand(device => device.State), PlaceOf(panel)));
        }
    }

    [Fact]
    public async Task What_waits_behind_an_order_that_failed_is_not_done()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Connected(page, events);
        panel.Devices.Last!.ByHand(device => device.Gantry.PressEStop());
        await events.UntilLive(live => EStopIsOpen(live) == true);
        await Commanded(page, "Clear");
        await Commanded(page, "Reset");
        await events.UntilTold("The device refused Clear");
        panel.Devices.Last.ByHand(device => device.Gantry.ReleaseEStop());
        for (var looks = 0; looks < 100; looks++)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(10), TimeProvider.System);
            Assert.Equal(MachineState.Aborted, panel.Devices.Last.ByHand(device => device.State));
        }
    }

    [Fact]
    public async Task What_is_not_referenced_does_not_move()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        await ServedPanel.Problem(await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = true, hold = 1 }), HttpStatusCode.Conflict);
        await Commanded(page, "Connect");
        await events.UntilState("Aborted");
        var refused = await ServedPanel.Problem(
            await ServedPanel.Post(page, "/api/hand/jog", new { axis = "x", up = true, hold = 1 }), HttpStatusCode.Conflict);
        Assert.Contains("Reset", refused.GetProperty("detail").GetString());
        await ServedPanel.Problem(await ServedPanel.Post(page, "/api/hand/jog", new { axis = "w", up = true, hold = 1 }), HttpStatusCode.UnprocessableEntity);
    }

    [Fact]
    public async Task Clear_is_refused_while_the_e_stop_is_pressed_and_the_hand_stays_good()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Connected(page, events);
        panel.Devices.Last!.ByHand(device => device.Gantry.PressEStop());
        await events.UntilLive(live => EStopIsOpen(live) == true);
        await Commanded(page, "Clear");
        var told = await events.Until("told", _ => true);
        Assert.Contains("the cause is still there", told.GetProperty("words").GetString());
        panel.Devices.Last.ByHand(device => device.Gantry.ReleaseEStop());
        await events.UntilLive(live => EStopIsOpen(live) == false);
        await Commanded(page, "Clear");
        await events.UntilState("Stopped");
    }

    [Fact]
    public async Task Every_page_may_switch_the_motors_off()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        using var other = panel.Page("other");
        await using var events = await PageStream.OpenAsync(page);
        await Ready(page, events);
        await using var watching = await PageStream.OpenAsync(other);
        await watching.UntilState("Idle");
        await ServedPanel.Problem(await ServedPanel.Post(other, "/api/hand/command", new { command = "Reset" }), HttpStatusCode.Conflict);
        await ServedPanel.Problem(await ServedPanel.Post(other, "/api/hand/jog", new { axis = "x", up = true, hold = 1 }), HttpStatusCode.Conflict);
        await Commanded(other, "Abort");
        await watching.UntilState("Aborted");
        await Commanded(page, "Clear");
        await events.UntilState("Stopped");
    }

    [Fact]
    public async Task Left_it_is_at_rest_and_another_may_have_it()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Ready(page, events);
        await Commanded(page, "Leave");
        await events.UntilLive(live => live.GetProperty("what").GetString() == "nothing");
        await Commanded(page, "Connect");
        await events.UntilState("Aborted"); // another mock device, just switched on
    }

    // Slow enough that a search still goes on when a page stops it, and that an axis which moves on by hand is not yet at its end.
    private static byte[] SlowMachine(int speedMmS) => Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(ServedPanel.QuickMachine)
        .Replace("reference_speed_mm_s = 200", $"reference_speed_mm_s = {speedMmS}", StringComparison.Ordinal));

    private static bool? EStopIsOpen(JsonElement live) => live.GetProperty("hand") is { ValueKind: JsonValueKind.Object } hand
        ? hand.GetProperty("inputs").GetProperty("eStopOpen").GetBoolean()
        : null;

    private static double PlaceOf(ServedPanel panel, bool y = false) =>
        panel.Devices.Last!.ByHand(device => y ? device.Gantry.Y.PlaceMm : device.Gantry.X.PlaceMm);

    private static async Task Connected(HttpClient page, PageStream events)
    {
        await events.UntilLive(_ => true);
        await Commanded(page, "Connect");
        await events.UntilState("Aborted");
    }

    private static async Task Ready(HttpClient page, PageStream events)
    {
        await Connected(page, events);
        await Commanded(page, "Clear");
        await events.UntilState("Stopped");
        await Commanded(page, "Reset");
        var idle = await events.UntilState("Idle");
        var referenced = idle.GetProperty("hand").GetProperty("referenced");
        Assert.True(referenced.GetProperty("x").GetBoolean() && referenced.GetProperty("y").GetBoolean());
    }

    private static async Task Commanded(HttpClient page, string command)
    {
        var answer = await ServedPanel.Post(page, "/api/hand/command", new { command, on = "mock" });
        Assert.True(answer.StatusCode == HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync());
    }
}

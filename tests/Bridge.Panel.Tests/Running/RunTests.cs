using System.Net;
using System.Text.Json;
using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Panel.Tests;

public sealed class RunTests
{
    private const string Comb = "A.A.A.A.\nA.A.A.A.\nA.A.A.A.\nAAAAAAAA\n";

    [Fact]
    public async Task A_dry_run_in_fast_time_is_seen_to_its_end_and_leaves_its_record()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        var job = await Planned(page, events);
        await Started(page, new { on = "mock", fast = true, measureLost = false });
        var end = (await events.UntilEnd()).GetProperty("run");
        Assert.Equal("Complete", end.GetProperty("end").GetProperty("outcome").GetString());
        Assert.Equal(job.GetProperty("cells").GetInt32(), end.GetProperty("cells").GetInt32());
        Assert.Equal(end.GetProperty("recordsInAll").GetInt32(), end.GetProperty("records").GetInt32());
        var predicted = end.GetProperty("predictedSeconds").GetDouble();
        Assert.InRange(end.GetProperty("end").GetProperty("jobSeconds").GetDouble(), 0.9 * predicted, 1.1 * predicted);
        Assert.NotEmpty(end.GetProperty("end").GetProperty("seal").GetString()!);
        var run = Assert.Single((await ServedPanel.Json(await page.GetAsync("/api/runs"))).GetProperty("runs").EnumerateArray());
        Assert.Equal(end.GetProperty("name").GetString(), run.GetProperty("name").GetString());
        Assert.Equal("Complete", run.GetProperty("outcome").GetString());
    }

    [Fact]
    public async Task Held_it_stands_and_gone_on_with_it_works_all_cells()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        var job = await Planned(page, events);
        await Started(page, new { on = "mock", fast = false, measureLost = false });
        await events.UntilLive(live => Run(live)?.GetProperty("cells").GetInt32() > 3);
        await Commanded(page, "Hold");
        var held = await events.UntilState("Held");
        Assert.Equal("action", held.GetProperty("sign").GetString());
        Assert.Equal(["Unhold", "Stop", "Abort"], held.GetProperty("accepts").EnumerateArray().Select(command => command.GetString()));
        await Commanded(page, "Unhold");
        var end = (await events.UntilEnd()).GetProperty("run");
        var left = events.Heard.Where(heard => heard.Name == "live").Select(heard => Run(heard.Data)).OfType<JsonElement>()
            .Where(run => run.GetProperty("secondsLeft").ValueKind == JsonValueKind.Number).Select(run => run.GetProperty("secondsLeft").GetDouble()).ToList();
        Assert.NotEmpty(left);
        Assert.Equal(left.OrderDescending(), left);
        Assert.Equal("Complete", end.GetProperty("end").GetProperty("outcome").GetString());
        Assert.Equal(job.GetProperty("cells").GetInt32(), end.GetProperty("cells").GetInt32());
    }

    [Theory]
    [InlineData("Stop", "Stopped")]
    [InlineData("Abort", "Aborted")]
    public async Task Every_page_may_stop_a_run_and_none_that_watches_may_go_on(string command, string outcome)
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        using var other = panel.Page("other");
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        await using var watching = await PageStream.OpenAsync(other);
        await Started(page, new { on = "mock", fast = false, measureLost = false });
        await watching.UntilLive(live => Run(live)?.GetProperty("cells").GetInt32() > 1);
        await Commanded(other, "Hold");
        await watching.UntilState("Held");
        await ServedPanel.Problem(await ServedPanel.Post(other, "/api/run/command", new { command = "Unhold" }), HttpStatusCode.Conflict);
        await Commanded(other, command);
        Assert.Equal(outcome, (await watching.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("outcome").GetString());
        await ServedPanel.Problem(await ServedPanel.Post(page, "/api/run/command", new { command = "Stop" }), HttpStatusCode.Conflict);
    }

    [Fact]
    public async Task A_pressed_e_stop_is_told_as_what_it_is()
    {
        await using var panel = await ServedPanel.StartAsync(faults: MockFaults.Parse("estop-at=5"));
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        await Started(page, new { on = "mock", fast = true, measureLost = false });
        var live = await events.UntilEnd();
        Assert.Equal(("Aborted", "EStop", "emergency"), StateOf(live));
        Assert.Equal("Aborted", live.GetProperty("run").GetProperty("end").GetProperty("outcome").GetString());
        Assert.Empty(live.GetProperty("accepts").EnumerateArray());
        Assert.NotEmpty(live.GetProperty("whatToDo").GetString()!);
    }

    [Fact]
    public async Task A_cut_cable_ends_the_run_and_says_what_is_known()
    {
        await using var panel = await ServedPanel.StartAsync(faults: MockFaults.Parse("cut-at=6"));
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        await Started(page, new { on = "mock", fast = true, measureLost = false });
        var end = (await events.UntilEnd()).GetProperty("run").GetProperty("end");
        Assert.Equal("LineLost", end.GetProperty("outcome").GetString());
        Assert.NotEmpty(end.GetProperty("whatToDo").GetString()!);
    }

    [Fact]
    public async Task A_wait_for_the_operator_says_which_head_comes_next_and_goes_on_when_told()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var waiting = new JobFile(panel.Machine.Grid, panel.Machine.Digest, Image.Of(panel.Machine.Width,
        [
            Record.Row(RecordWidth.Four, Head.A, new Cell(1, 1), 0, 3), Record.WaitForOperator(),
            Record.Row(RecordWidth.Four, Head.B, new Cell(6, 1), 0, 3), Record.End,
        ]));
        await ServedPanel.Json(await page.PostAsync("/api/job?name=change.job", ServedPanel.File(waiting.ToBytes())));
        await Started(page, new { on = "mock", fast = false, measureLost = false });
        var held = await events.UntilLive(live => Run(live) is { } run && run.GetProperty("prompt").ValueKind == JsonValueKind.String);
        Assert.Equal(("Held", "OperatorWait", "action"), StateOf(held));
        Assert.Contains("Next comes: head b, layer 0.", Run(held)!.Value.GetProperty("prompt").GetString());
        await Commanded(page, "Unhold");
        Assert.Equal("Complete", (await events.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("outcome").GetString());
    }

    [Fact]
    public async Task One_run_at_a_time()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        await Started(page, new { on = "mock", fast = false, measureLost = false });
        await ServedPanel.Problem(await ServedPanel.Post(page, "/api/run", new { on = "mock", fast = true, measureLost = false }), HttpStatusCode.Conflict);
        await ServedPanel.Problem(await ServedPanel.Post(page, "/api/hand/command", new { command = "Connect", on = "mock" }), HttpStatusCode.Conflict);
        await Commanded(page, "Abort");
        await events.UntilEnd();
    }

    [Fact]
    public async Task A_program_that_ends_stops_its_run_first()
    {
        var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        await Started(page, new { on = "mock", fast = false, measureLost = false });
        await events.UntilLive(live => Run(live)?.GetProperty("cells").GetInt32() > 1);
        await panel.Host.StopMachineAsync();
        Assert.Equal("Stopped", (await events.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("outcome").GetString());
        await panel.DisposeAsync();
    }

    [Fact]
    public async Task On_a_real_machine_each_question_is_answered_before_it_moves()
    {
        await using var panel = await ServedPanel.StartAsync(port: "/dev/ttyTEST");
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        var asked = await ServedPanel.Json(await page.GetAsync("/api/checklist"));
        Assert.True(asked.GetProperty("isNeeded").GetBoolean() && asked.GetProperty("isWhole").GetBoolean());
        Assert.Equal("to be tried", asked.GetProperty("eStop").GetString());
        var all = ItemsOf(asked);
        foreach (var (who, answers) in new[] { ("Ida", all[1..]), ("Ida", []), ("", all), (new string('x', 61), all) })
            await ServedPanel.Problem(await ServedPanel.Post(page, "/api/run", OnDevice(who, answers)), HttpStatusCode.UnprocessableEntity);
        Assert.Null(panel.Devices.Last); // nothing was opened

        await Started(page, OnDevice("Ida", all));
        await TriesEStopAsync(panel, events);
        var run = (await events.UntilEnd()).GetProperty("run");
        Assert.Equal("Complete", run.GetProperty("end").GetProperty("outcome").GetString());
        var record = await File.ReadAllTextAsync(Path.Combine(panel.Runs, run.GetProperty("name").GetString()!, "checklist.json"));
        Assert.Contains("\"operator\": \"Ida\"", record);
        Assert.Contains("eStopTried", record);

        var again = await ServedPanel.Json(await page.GetAsync("/api/checklist"));
        Assert.False(again.GetProperty("isWhole").GetBoolean()); // looked over today: the short list
        Assert.Equal("tried today", again.GetProperty("eStop").GetString());
    }

    [Fact]
    public async Task A_machine_that_looks_for_its_zero_after_the_run_is_seen_to_move_and_can_be_stopped()
    {
        await using var panel = await ServedPanel.StartAsync(port: "/dev/ttyTEST");
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        var all = await ItemsAsync(page);
        await Started(page, new { on = "device", fast = false, @operator = "Ida", answers = all, measureLost = true });
        await TriesEStopAsync(panel, events);
        await events.UntilState("Execute");
        var moving = await events.UntilState("Resetting");
        Assert.Equal(["Stop", "Abort"], moving.GetProperty("accepts").EnumerateArray().Select(command => command.GetString()));
        await events.UntilTold("Lost steps: X off by 0");
        Assert.Equal("Complete", (await events.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("outcome").GetString());
    }

    [Fact]
    public async Task An_e_stop_that_nobody_presses_starts_nothing_when_it_is_given_up()
    {
        await using var panel = await ServedPanel.StartAsync(port: "/dev/ttyTEST");
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        var all = await ItemsAsync(page);
        await Started(page, OnDevice("Ida", all));
        await events.Until("told", _ => true);
        await Commanded(page, "Stop");
        Assert.Equal("Nothing was started.", (await events.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("words").GetString());
        Assert.False(Directory.Exists(panel.Runs));
    }

    [Fact]
    public async Task A_hold_before_the_run_has_begun_keeps_the_machine_from_moving_until_it_is_let_go()
    {
        await using var panel = await ServedPanel.StartAsync(port: "/dev/ttyTEST");
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        await Started(page, OnDevice("Ida", await ItemsAsync(page)));
        await events.UntilTold("Press the e-stop now");
        await Commanded(page, "Hold");
        panel.Devices.Last!.ByHand(device => device.Gantry.PressEStop());
        await events.UntilTold("Seen open");
        panel.Devices.Last.ByHand(device => device.Gantry.ReleaseEStop());
        var held = await events.UntilState("Aborted");
        Assert.Equal(["Unhold", "Stop", "Abort"], held.GetProperty("accepts").EnumerateArray().Select(command => command.GetString()));
        Assert.Contains("holds before it moves", held.GetProperty("whatToDo").GetString());
        await Task.Delay(TimeSpan.FromMilliseconds(500), TimeProvider.System);
        Assert.False(panel.Devices.Last.ByHand(device => device.Gantry.DriversAreOn));
        await Commanded(page, "Unhold");
        Assert.Equal("Complete", (await events.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("outcome").GetString());
    }

    [Fact]
    public async Task An_abort_while_the_e_stop_is_tried_leaves_the_motors_off()
    {
        await using var panel = await ServedPanel.StartAsync(port: "/dev/ttyTEST");
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        await Started(page, OnDevice("Ida", await ItemsAsync(page)));
        await events.UntilTold("Press the e-stop now");
        await Commanded(page, "Abort");
        Assert.Equal("Nothing was started.", (await events.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("words").GetString());
        await events.UntilTold("Abort: the motors are off.");
    }

    [Fact]
    public async Task A_stop_while_the_port_is_still_opened_is_not_forgotten()
    {
        await using var panel = await ServedPanel.StartAsync(port: "/dev/ttyTEST");
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        var opens = new TaskCompletionSource();
        panel.Devices.MayOpen = opens.Task;
        var all = await ItemsAsync(page);
        var starting = ServedPanel.Post(page, "/api/run", OnDevice("Ida", all));
        while ((await ServedPanel.Post(page, "/api/run/command", new { command = "Stop" })).StatusCode != HttpStatusCode.Accepted)
            await Task.Delay(TimeSpan.FromMilliseconds(10), TimeProvider.System);
        opens.SetResult();
        Assert.Equal(HttpStatusCode.Accepted, (await starting).StatusCode);
        Assert.Equal("Nothing was started.", (await events.UntilEnd()).GetProperty("run").GetProperty("end").GetProperty("words").GetString());
        Assert.False(Directory.Exists(panel.Runs));
    }

    [Fact]
    public async Task A_device_that_cannot_be_had_is_told_with_why()
    {
        await using var panel = await ServedPanel.StartAsync(port: "/dev/ttyTEST");
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await Planned(page, events);
        panel.Devices.PortTrouble = "/dev/ttyTEST: another program has the port.";
        var all = await ItemsAsync(page);
        var trouble = await ServedPanel.Problem(
            await ServedPanel.Post(page, "/api/run", OnDevice("Ida", all)), HttpStatusCode.ServiceUnavailable);
        Assert.Contains("another program", trouble.GetProperty("detail").GetString());
        await Started(page, new { on = "mock", fast = true, measureLost = false }); // the machine is left to others
        await events.UntilEnd();
    }

    [Fact]
    public async Task A_folder_of_runs_that_cannot_be_written_starts_nothing_and_is_told()
    {
        var file = Path.GetTempFileName();
        try
        {
            await using var panel = await ServedPanel.StartAsync(runs: file);
            using var page = panel.Page();
            await using var events = await PageStream.OpenAsync(page);
            await Planned(page, events);
            await Started(page, new { on = "mock", fast = true, measureLost = false });
            var end = (await events.UntilEnd()).GetProperty("run").GetProperty("end");
            Assert.Equal("Refused", end.GetProperty("outcome").GetString());
            Assert.Contains("Nothing was started", end.GetProperty("words").GetString());
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static object OnDevice(string who, string[] answers) => new { on = "device", fast = false, @operator = who, answers, measureLost = false };

    private static async Task<string[]> ItemsAsync(HttpClient page) => ItemsOf(await ServedPanel.Json(await page.GetAsync("/api/checklist")));

    private static string[] ItemsOf(JsonElement checklist) =>
        [.. checklist.GetProperty("items").EnumerateArray().Select(item => item.GetProperty("id").GetString()!)];

    private static (string?, string?, string?) StateOf(JsonElement live) =>
        (live.GetProperty("state").GetString(), live.GetProperty("cause").GetString(), live.GetProperty("sign").GetString());

    private static JsonElement? Run(JsonElement live) => live.GetProperty("run") is { ValueKind: JsonValueKind.Object } run ? run : null;

    private static async Task<JsonElement> Planned(HttpClient page, PageStream events)
    {
        await events.UntilLive(_ => true);
        return await ServedPanel.Json(await page.PostAsync("/api/job?name=comb.txt", ServedPanel.File(Comb)));
    }

    private static async Task Started(HttpClient page, object wish)
    {
        var answer = await ServedPanel.Post(page, "/api/run", wish);
        Assert.True(answer.StatusCode == HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync());
    }

    private static async Task TriesEStopAsync(ServedPanel panel, PageStream events)
    {
        await events.UntilTold("Press the e-stop now");
        panel.Devices.Last!.ByHand(device => device.Gantry.PressEStop());
        await events.UntilTold("Seen open");
        panel.Devices.Last.ByHand(device => device.Gantry.ReleaseEStop());
    }

    private static async Task Commanded(HttpClient page, string command)
    {
        var answer = await ServedPanel.Post(page, "/api/run/command", new { command });
        Assert.True(answer.StatusCode == HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync());
    }
}

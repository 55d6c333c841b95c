using System.Buffers.Binary;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Bridge.Jobs;

namespace Bridge.Panel.Tests;

public sealed class JobTests
{
    private const string Arrow = """
        ....A...
        ...AAA..
        ..A.B.A.
        ....B...
        """;

    [Fact]
    public async Task A_dropped_shape_is_planned_proved_and_told_with_its_layers_and_costs()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var job = await ServedPanel.Json(await page.PostAsync("/api/job?name=arrow.txt", ServedPanel.File(Arrow)));
        Assert.True(job.GetProperty("isProved").GetBoolean());
        Assert.True(job.GetProperty("canRun").GetBoolean());
        Assert.Equal("arrow.txt", job.GetProperty("name").GetString());
        Assert.Equal((6, 2), (job.GetProperty("cellsA").GetInt32(), job.GetProperty("cellsB").GetInt32()));
        Assert.Equal(job.GetProperty("bytes").GetInt32(), job.GetProperty("records").GetInt32() * 3);
        Assert.Equal(job.GetProperty("records").GetInt32(), job.GetProperty("costs").EnumerateArray().Sum(cost => cost.GetProperty("records").GetInt32()));
        var layer = Assert.Single(job.GetProperty("layers").EnumerateArray());
        Assert.Equal((0, 0, 8), (layer.GetProperty("layer").GetInt32(), layer.GetProperty("firstCell").GetInt32(), layer.GetProperty("cells").GetInt32()));
        Assert.Equal(job.GetProperty("id").GetString(), (await events.Until("job", _ => true)).GetProperty("id").GetString());
        Assert.Equal(job.ToString(), (await ServedPanel.Json(await page.GetAsync("/api/job"))).ToString());
    }

    [Fact]
    public async Task The_cells_of_each_layer_come_in_the_order_in_which_they_are_worked()
    {
        await using var panel = await ServedPanel.StartAsync(machineBytes: RunExamples.MachineBytes("desktop-gantry.toml"));
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var job = await ServedPanel.Json(await page.PostAsync("/api/job?example=lighthouse.txt", null));
        var file = JobFile.Parse(await page.GetByteArrayAsync("/api/job/file"), "job");
        var worked = new List<(int Layer, int X, int Y, Head Head)>();
        var interpreter = new Interpreter(file.Image, file.Grid);
        while (interpreter.MoveNext())
            worked.Add((interpreter.Current.Layer, interpreter.Current.Cell.X, interpreter.Current.Cell.Y, interpreter.Current.Head));

        var told = new List<(int Layer, int X, int Y, Head Head)>();
        foreach (var layer in job.GetProperty("layers").EnumerateArray())
        {
            var number = layer.GetProperty("layer").GetInt32();
            Assert.Equal(told.Count, layer.GetProperty("firstCell").GetInt32());
            var octets = await page.GetByteArrayAsync($"/api/job/layers/{number}");
            for (var at = 0; at < octets.Length; at += 4)
            {
                var second = BinaryPrimitives.ReadUInt16LittleEndian(octets.AsSpan(at + 2));
                told.Add((number, BinaryPrimitives.ReadUInt16LittleEndian(octets.AsSpan(at)), second & 0x7FFF, second >= 0x8000 ? Head.B : Head.A));
            }
        }

        Assert.Equal(worked, told);
        Assert.Equal(HttpStatusCode.NotFound, (await page.GetAsync("/api/job/layers/4000")).StatusCode);
    }

    [Fact]
    public async Task Records_are_told_as_bytes_bits_and_words()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        await page.PostAsync("/api/job?name=arrow.txt", ServedPanel.File(Arrow));
        var records = (await ServedPanel.Json(await page.GetAsync("/api/job/records?from=0&count=1000"))).GetProperty("records");
        var image = JobFile.Parse(await page.GetByteArrayAsync("/api/job/file"), "job").Image;
        Assert.Equal(Convert.ToHexString(image.Bytes.Span), string.Concat(records.EnumerateArray().Select(record => record.GetProperty("bytes").GetString())));
        foreach (var record in records.EnumerateArray())
        {
            var bits = string.Concat(record.GetProperty("fields").EnumerateArray().Select(field => field.GetProperty("bits").GetString()));
            Assert.Equal(record.GetProperty("bytes").GetString(), Convert.ToInt32(bits, 2).ToString("X6", null));
        }

        await ServedPanel.Problem(await page.GetAsync("/api/job/records?from=-1"), HttpStatusCode.UnprocessableEntity);
        await ServedPanel.Problem(await page.GetAsync("/api/job/records?count=1001"), HttpStatusCode.UnprocessableEntity);
        Assert.Empty((await ServedPanel.Json(await page.GetAsync("/api/job/records?from=5000"))).GetProperty("records").EnumerateArray());
    }

    [Fact]
    public async Task A_shape_that_is_too_long_for_the_store_is_shown_with_what_would_help_and_is_not_run()
    {
        await using var panel = await ServedPanel.StartAsync(machineBytes: RunExamples.MachineBytes("desktop-gantry.toml"));
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var job = await ServedPanel.Json(await page.PostAsync("/api/job?example=thicket.txt", null));
        Assert.False(job.GetProperty("fits").GetBoolean());
        Assert.False(job.GetProperty("canRun").GetBoolean());
        Assert.NotEmpty(job.GetProperty("advice").EnumerateArray());
        var refused = await ServedPanel.Problem(
            await ServedPanel.Post(page, "/api/run", new { on = "mock", fast = true, measureLost = false }),
            HttpStatusCode.UnprocessableEntity);
        Assert.NotEmpty(refused.GetProperty("refusals").EnumerateArray());
    }

    [Fact]
    public async Task A_job_file_that_does_not_hold_is_shown_with_its_faults_on_their_cells()
    {
        var gantry = RunExamples.MachineBytes("desktop-gantry.toml");
        await using var panel = await ServedPanel.StartAsync(machineBytes: gantry);
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var twice = RunExamples.Job(RunExamples.Gantry, Record.Row(RecordWidth.Four, Head.A, new Cell(2, 3), 0, 4),
            Record.Row(RecordWidth.Four, Head.B, new Cell(5, 3), 0, 2), Record.End);
        var job = await ServedPanel.Json(await page.PostAsync("/api/job?name=twice.job", ServedPanel.File(twice.ToBytes())));
        Assert.False(job.GetProperty("isProved").GetBoolean());
        var fault = Assert.Single(job.GetProperty("faults").EnumerateArray());
        Assert.Equal(1, fault.GetProperty("record").GetInt32());
        var cell = Assert.Single(fault.GetProperty("cells").EnumerateArray());
        Assert.Equal((0, 5, 3), (cell.GetProperty("layer").GetInt32(), cell.GetProperty("x").GetInt32(), cell.GetProperty("y").GetInt32()));
    }

    [Fact]
    public async Task What_would_fall_is_refused_with_its_cells_where_no_support_is_wished()
    {
        await using var panel = await ServedPanel.StartAsync(machineBytes: RunExamples.MachineBytes("desktop-gantry.toml"));
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        const string Shelf = "AA....\n---\nAAAAAA\n";
        var refused = await ServedPanel.Problem(
            await page.PostAsync("/api/job?name=shelf.txt&support=false", ServedPanel.File(Shelf)),
            HttpStatusCode.UnprocessableEntity);
        var cells = refused.GetProperty("refusals")[0].GetProperty("cells").EnumerateArray().Select(cell => cell.GetProperty("x").GetInt32()).ToList();
        Assert.Equal([3, 4, 5], cells); // an overhang of one cell is allowed
        var held = await ServedPanel.Json(await page.PostAsync("/api/job?name=shelf.txt", ServedPanel.File(Shelf)));
        Assert.Contains("support", Assert.Single(held.GetProperty("told").EnumerateArray()).GetString());
    }

    [Theory]
    [InlineData("threshold=300", "threshold")]
    [InlineData("size=big", "size")]
    [InlineData("size=-3", "size")]
    [InlineData("place=left", "place")]
    [InlineData("turn=9x", "turn")]
    [InlineData("hollow=0", "hollow")]
    public async Task An_option_that_is_not_good_is_named_with_what_is_allowed(string option, string place)
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var refused = await ServedPanel.Problem(
            await page.PostAsync($"/api/job?name=arrow.txt&{option}", ServedPanel.File(Arrow)),
            HttpStatusCode.UnprocessableEntity);
        Assert.Equal(place, refused.GetProperty("refusals")[0].GetProperty("place").GetString());
        Assert.Equal(HttpStatusCode.NotFound, (await page.GetAsync("/api/job")).StatusCode);
    }

    [Theory]
    [InlineData("name=..%2F..%2Fetc%2Fpasswd")]
    [InlineData("name=%2Fetc%2Fpasswd")]
    [InlineData("name=a%0Ab.txt")]
    [InlineData("example=..%2Fmachines%2Fcardboard-plotter.toml")]
    [InlineData("example=nothing.txt")]
    [InlineData("name=noise.txt")]
    [InlineData("name=noise.png")]
    [InlineData("name=noise.stl")]
    [InlineData("name=noise.svg")]
    [InlineData("name=noise.job")]
    [InlineData("name=noise.exe")]
    [InlineData("text=")]
    [InlineData("name=a.txt&example=kite.csv")]
    [InlineData("")]
    public async Task What_is_no_shape_is_refused_in_words_and_the_job_at_hand_stays(string query)
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var before = await ServedPanel.Json(await page.PostAsync("/api/job?example=kite.csv", null));
        var noise = new byte[300];
        new Random(5).NextBytes(noise);
        var refused = await ServedPanel.Problem(await page.PostAsync($"/api/job?{query}", ServedPanel.File(noise)), HttpStatusCode.UnprocessableEntity);
        Assert.NotEmpty(refused.GetProperty("detail").GetString()!);
        Assert.Equal(before.GetProperty("id").GetString(), (await ServedPanel.Json(await page.GetAsync("/api/job"))).GetProperty("id").GetString());
    }

    [Fact]
    public async Task Text_is_planned_in_the_plain_alphabet()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var page = panel.Page();
        await using var events = await PageStream.OpenAsync(page);
        await events.UntilLive(_ => true);
        var job = await ServedPanel.Json(await page.PostAsync("/api/job?text=HI&height=7", null));
        Assert.True(job.GetProperty("cells").GetInt32() > 10);
    }

    [Fact]
    public async Task A_page_that_watches_plans_nothing()
    {
        await using var panel = await ServedPanel.StartAsync();
        using var first = panel.Page("first");
        using var second = panel.Page("second");
        await using var events = await PageStream.OpenAsync(first);
        await events.UntilLive(_ => true);
        await using var watching = await PageStream.OpenAsync(second);
        await watching.UntilLive(_ => true);
        await ServedPanel.Problem(await second.PostAsync("/api/job?example=kite.csv", null), HttpStatusCode.Conflict);
        Assert.Equal(HttpStatusCode.OK, (await first.PostAsync("/api/job?example=kite.csv", null)).StatusCode);
        Assert.Equal("kite.csv", (await second.GetFromJsonAsync<JsonElement>("/api/job")).GetProperty("name").GetString());
    }
}

using System.Globalization;
using Microsoft.Playwright;

namespace Panel.Bench;

/// <summary>
/// A page that watches a run of eight hours and more, and then several short ones: what it keeps, from the end of the first hour on. Time passes up to a
/// hundred times as fast as in reality for the panel and the machine, and the event stream sends all that it would send then; the page draws as often as
/// its screen has a frame, which is less often than in reality.
/// </summary>
/// <param name="length">How long the run is, and how often the page is read.</param>
/// <param name="leaks">Whether the bench plants a leak into the page, to see that it is noticed.</param>
internal sealed class PageSoak(SoakLength length, bool leaks)
{
    private const int Speed = 100;
    private const int ShortRuns = 12;
    private const int MostNodes = 20; // by so many the page differs with the record and the words that it shows at the moment
    private const float Patience = 60_000; // ms

    private const string CountEvents = """
        window.soak = { events: 0, told: 0, frames: 0, kept: [] };
        const [parse, frame] = [JSON.parse, requestAnimationFrame];
        window.requestAnimationFrame = call => { soak.frames++; return frame(call); };
        JSON.parse = (text, ...more) => {
            const value = parse(text, ...more);
            if (text.startsWith(' {"seq"')) soak.events++;
            if (text.startsWith(' {"number"')) soak.told++;
            if (LEAKS && soak.events % 1000 === 0) {
                const node = document.createElement('p');
                node.addEventListener('click', () => value);
                soak.kept.push(node);
            }
            return value;
        };
        """;

    private readonly SoakTime _time = new();
    private readonly List<PageMemory> _hours = [];
    private readonly List<PageMemory> _runs = [];
    private IPage? _page;
    private Person? _person;
    private PageMemoryReader? _memory;
    private TimeSpan? _began;
    private Task _lookingAbout = Task.CompletedTask;
    private int _timesLookedAbout;

    /// <summary>Runs it.</summary>
    public async Task<IReadOnlyList<Figure>> MeasureAsync(Browser browser)
    {
        SoakDevices? devices = null;
        await using var served = await Served.StartAsync(Patient, machine => devices = new SoakDevices(machine, _time, PassedAsync), _time);
        using var ends = new CancellationTokenSource();
        var idle = PassIdleAsync(devices!, ends.Token);
        var script = $"{CountEvents.Replace("LEAKS", leaks ? "true" : "false", StringComparison.Ordinal)}{PageMemoryReader.CountGraphics}{Person.GoOn}";
        _page = await browser.NewPageAsync(script);
        _page.SetDefaultTimeout(Patience);
        Assertions.SetDefaultExpectTimeout(Patience);
        _person = new Person(_page, devices!);
        await _page.GotoAsync(served.Address);
        await _person.RunDryAsync(); // there is a past run to look at
        _memory = await PageMemoryReader.OfAsync(_page);
        await _person.RunOnMachineAsync(SoakJob.Of(served.Machine, length.Times));
        devices!.Speed = Speed;
        var hours = await WatchAsync();
        var (events, told, frames) = await CountAsync();
        for (var run = 0; run < ShortRuns; run++)
        {
            await _person.RunDryAsync();
            _runs.Add(await ReadAsync($"run {run + 1}"));
        }

        await ends.CancelAsync();
        await idle;
        return [.. Figures(hours, events, told, frames)];
    }

    private async Task<double> WatchAsync()
    {
        Console.WriteLine("              heap  buffers  nodes listen.  WebGL  process");
        _began = _time.Clock.Now;
        await _page!.Locator("#ended").WaitForAsync(new LocatorWaitForOptions { Timeout = 0 });
        await Assertions.Expect(_page.Locator("#state")).ToHaveTextAsync("Complete");
        var hours = (_time.Clock.Now - _began!.Value).TotalHours;
        _began = null;
        await _lookingAbout;
        await _page.Locator("#plan-next").ClickAsync();
        return hours;
    }

    // Between two turns of the run, which stands still meanwhile: half-way between two readings a person looks about.
    private async Task PassedAsync()
    {
        if (_began is not { } began)
            return;
        var hours = (_time.Clock.Now - began).TotalHours;
        if (hours >= length.ReadAt(_timesLookedAbout) - length.HoursBetween / 2)
            (_lookingAbout, _timesLookedAbout) = (_person!.LookAboutAsync(), _timesLookedAbout + 1);
        if (hours < length.ReadAt(_hours.Count))
            return;
        await _lookingAbout;
        _hours.Add(await ReadAsync(string.Create(CultureInfo.InvariantCulture, $"hour {length.ReadAt(_hours.Count)}")));
        _time.PaceFromNow();
    }

    private async Task<PageMemory> ReadAsync(string when)
    {
        var before = -1;
        while (await _page!.EvaluateAsync<int>("() => soak.events") is var events && events != before)
        {
            before = events;
            await Task.Delay(200); // what is still on its way arrives and is drawn
        }

        var read = await _memory!.ReadAsync();
        Console.WriteLine($"{when,-10}{read}  {before.ToString(CultureInfo.InvariantCulture)} events");
        return read;
    }

    private async Task<(int Events, int Told, int Frames)> CountAsync()
    {
        var counts = await _page!.EvaluateAsync<int[]>("() => [soak.events, soak.told, soak.frames]");
        return (counts[0], counts[1], counts[2]);
    }

    // Where no run moves the clock it goes as a real one does.
    private async Task PassIdleAsync(SoakDevices devices, CancellationToken ends)
    {
        var step = TimeSpan.FromMilliseconds(20);
        while (!ends.IsCancellationRequested)
        {
            await Task.Delay(step, CancellationToken.None);
            if (!devices.IsOpen)
                _time.Clock.AdvanceTo(_time.Clock.Now + step);
        }
    }

    private IEnumerable<Figure> Figures(double hours, int events, int told, int frames)
    {
        var note = string.Create(CultureInfo.InvariantCulture,
            $"{events} live events, {events / hours / 3600:0.0} a second of the run; {told} sentences; {frames} frames asked for");
        yield return new Figure("soak, run watched", hours, "h", length.LeastHours, hours, hours, IsLeast: true, note);
        foreach (var (name, read) in new[] { ("from hour 1 on", _hours), ($"from run 2 to {ShortRuns}", _runs[1..]) })
        {
            yield return Growth($"soak, heap {name}", read, memory => memory.HeapMB, "MB", 1);
            yield return Growth($"soak, array buffers {name}", read, memory => memory.BuffersMB, "MB", 1);
            yield return Growth($"soak, nodes {name}", read, memory => memory.Nodes, "", MostNodes);
            yield return Growth($"soak, listeners {name}", read, memory => memory.Listeners, "", 0);
            yield return Growth($"soak, WebGL objects {name}", read, memory => memory.GraphicsObjects, "", 0);
        }
    }

    // By how much the straight line through all that was read rises from its first to its last.
    private static Figure Growth(string name, IReadOnlyList<PageMemory> read, Func<PageMemory, double> what, string unit, double goal)
    {
        var values = read.Select(what).ToList();
        var (middle, mean) = ((values.Count - 1) / 2.0, values.Average());
        var slope = values.Select((value, index) => (index - middle) * (value - mean)).Sum()
            / values.Select((_, index) => (index - middle) * (index - middle)).Sum();
        return new Figure(name, slope * (values.Count - 1), unit, goal, values.Min(), values.Max());
    }

    // Its cells may be worked again and again, so quickly that nearly each event that the page can get tells of another one.
    private static string Patient(string machine) => machine
        .Replace("store_bytes = 256", "store_bytes = 1024", StringComparison.Ordinal)
        .Replace("overprint = \"forbid\"", "overprint = \"allow\"", StringComparison.Ordinal);
}

/// <summary>How long the watched run is, and how often the page is read.</summary>
/// <param name="Times">How often the job does each of its parts again.</param>
/// <param name="LeastHours">The least that the run may last.</param>
/// <param name="HoursBetween">From one reading to the next; the first is after an hour.</param>
internal sealed record SoakLength(int Times, double LeastHours, double HoursBetween)
{
    public static SoakLength Whole { get; } = new(Times: 200, LeastHours: 8, HoursBetween: 1);

    public static SoakLength Brief { get; } = new(Times: 50, LeastHours: 2, HoursBetween: 0.25);

    /// <summary>At which hour a reading is taken, the first with number 0.</summary>
    public double ReadAt(int reading) => 1 + reading * HoursBetween;
}

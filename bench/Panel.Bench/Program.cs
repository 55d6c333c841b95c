using Panel.Bench;

var measures = new Dictionary<string, Func<Browser, Task<IReadOnlyList<Figure>>>>
{
    ["first-view"] = FirstView.MeasureAsync,
    ["event-to-pixels"] = EventToPixels.MeasureAsync,
    ["turn"] = Turn.MeasureAsync,
    ["turn-limit"] = TurnLimit.MeasureAsync,
    ["soak"] = new PageSoak(SoakLength.Whole, leaks: false).MeasureAsync,
    ["soak-brief"] = new PageSoak(SoakLength.Brief, leaks: false).MeasureAsync,
    ["soak-leaking"] = new PageSoak(SoakLength.Brief, leaks: true).MeasureAsync,
};
var names = args is ["all"] ? ["first-view", "event-to-pixels", "turn"] : args;
if (names.Length == 0 || names.Any(name => !measures.ContainsKey(name)))
{
    Console.Error.WriteLine($"Say all, or some of: {string.Join(", ", measures.Keys)}.");
    return 2;
}

if (Browser.IsMissingBecause is { } missing)
{
    Console.Error.WriteLine(missing);
    return 2;
}

await using var browser = await Browser.StartAsync();
var isMet = true;
foreach (var name in names)
    foreach (var figure in await measures[name](browser))
    {
        Console.WriteLine(figure);
        isMet &= figure.IsMet;
    }

return isMet ? 0 : 1;

using System.Text.Json;

namespace Bridge.Panel.Tests;

/// <summary>The events of a page, read as they come.</summary>
internal sealed class PageStream : IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60); // on a machine with much else to do

    private readonly StreamReader _reader;
    private readonly CancellationTokenSource _late = new(Patience);

    private PageStream(StreamReader reader) => _reader = reader;

    /// <summary>All that came, in order.</summary>
    public List<(string Name, JsonElement Data)> Heard { get; } = [];

    public static async Task<PageStream> OpenAsync(HttpClient page) => new(new StreamReader(await page.GetStreamAsync("/api/events")));

    /// <summary>Reads on until an event of a name is as wanted, and gives it.</summary>
    public async Task<JsonElement> Until(string name, Func<JsonElement, bool> isIt)
    {
        while (true)
        {
            var (heard, data) = await Next();
            if (heard == name && isIt(data))
                return data;
        }
    }

    /// <summary>Reads on until a person is told something that begins so.</summary>
    public Task<JsonElement> UntilTold(string words) =>
        Until("told", told => told.GetProperty("words").GetString()!.StartsWith(words, StringComparison.Ordinal));

    /// <summary>Reads on until what is to be seen is as wanted.</summary>
    public Task<JsonElement> UntilLive(Func<JsonElement, bool> isIt) => Until("live", isIt);

    public Task<JsonElement> UntilState(string state) => UntilLive(live => live.GetProperty("state").GetString() == state);

    public Task<JsonElement> UntilEnd() => UntilLive(live => live.GetProperty("run") is { ValueKind: JsonValueKind.Object } run
        && run.GetProperty("end").ValueKind == JsonValueKind.Object);

    public ValueTask DisposeAsync()
    {
        _reader.Dispose();
        _late.Dispose();
        return ValueTask.CompletedTask;
    }

    private async Task<string?> LineAsync()
    {
        try
        {
            return await _reader.ReadLineAsync(_late.Token);
        }
        catch (OperationCanceledException)
        {
            var last = string.Join(" | ", Heard.TakeLast(3).Select(heard => $"{heard.Name} {heard.Data}"));
            throw new TimeoutException($"It never came. The last that did: {last}");
        }
    }

    private async Task<(string Name, JsonElement Data)> Next()
    {
        var name = "";
        while (true)
        {
            var line = await LineAsync() ?? throw new EndOfStreamException("The stream ended.");
            if (line.StartsWith("event: ", StringComparison.Ordinal))
                name = line["event: ".Length..];
            else if (line.StartsWith("data: ", StringComparison.Ordinal))
            {
                var heard = (name, JsonDocument.Parse(line["data: ".Length..]).RootElement);
                Heard.Add(heard);
                return heard;
            }
        }
    }
}

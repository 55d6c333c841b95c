using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;

namespace Bridge.Panel;

/// <summary>
/// What a page hears while it is open, as server-sent events: what is to be seen, how the controls stand, which job is at hand, and what is said. It leaves
/// at once, but at most 20 times a second, and at least every 2 s, so that silence means that the program is gone.
/// </summary>
internal sealed class EventStream(LiveBoard board, ControlsDesk controls, JobDesk jobs, TimeProvider time)
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(50);
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(2);

    /// <summary>Writes until the page goes, or the program ends.</summary>
    public async Task<IResult> RunAsync(HttpContext context, string page, CancellationToken ends)
    {
        if (!controls.TryCome(page))
            return Problems.NotNow("Too many pages.", $"{ControlsDesk.MostPages} are open: close one.");
        try
        {
            context.Response.ContentType = "text/event-stream";
            context.Features.Get<IHttpResponseBodyFeature>()?.DisableBuffering();
            await WriteAsync(context.Response, page, ends).ConfigureAwait(false);
        }
        catch (Exception gone) when (gone is OperationCanceledException or IOException)
        {
            // The page was closed, or the program ends.
        }
        finally
        {
            controls.Leave(page);
        }

        return Results.Empty;
    }

    private async Task WriteAsync(HttpResponse response, string page, CancellationToken ends)
    {
        var (seq, said, id) = (-1L, 0L, (string?)null);
        ControlsView? stand = null;
        long? at = null;
        while (true)
        {
            var change = board.NextChange;
            if (at is not { } last || time.GetElapsedTime(last) >= (board.Seq != seq ? Interval : Longest))
            {
                var live = board.Present;
                (seq, at) = (live.Seq, time.GetTimestamp());
                await SayAsync("live", live).ConfigureAwait(false);
            }

            if (controls.Of(page) is var now && now != stand)
                await SayAsync("controls", stand = now).ConfigureAwait(false);
            if (jobs.Present?.Id is { } job && job != id)
                await SayAsync("job", new { Id = id = job }).ConfigureAwait(false);
            foreach (var sentence in board.ToldAfter(said))
            {
                said = sentence.Number;
                await SayAsync("told", sentence).ConfigureAwait(false);
            }

            await response.Body.FlushAsync(ends).ConfigureAwait(false);
            var pause = Task.Delay(Interval, time, ends); // what is said, and who has the controls, is looked at as often
            await (board.Seq != seq ? pause : Task.WhenAny(change, pause)).ConfigureAwait(false);
            ends.ThrowIfCancellationRequested();
        }

        Task SayAsync<T>(string name, T data) =>
            response.WriteAsync($"event: {name}\ndata: {JsonSerializer.Serialize(data, PanelJson.Options)}\n\n", ends);
    }
}

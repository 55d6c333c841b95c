using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>Drives a run over a line until it ends.</summary>
public static class RunLoop
{
    // A line may have news that does not wake who waits for it.
    private static readonly TimeSpan LongestWait = TimeSpan.FromMilliseconds(20);

    // A line that never falls silent must not keep the run from what is due.
    private const int MostReads = 16;

    /// <summary>Runs to the end. Time is the line's own: a device in virtual time moves it. To cancel stops nothing: request Stop or Abort.</summary>
    public static async Task<RunEnd> RunAsync(RunController run, ILine line, TimeProvider time)
    {
        run.StopOn(line);
        var buffer = new byte[4096];
        var start = time.GetTimestamp();
        TimeSpan Now() => time.GetElapsedTime(start);
        while (true)
        {
            var now = Now(); // before the line is read: a host that was kept from reading must not find its device silent
            for (int reads = 0, count; reads < MostReads && (count = line.Read(buffer)) > 0; reads++)
                run.Receive(buffer.AsSpan(0, count), now);
            var request = run.NextRequest; // before the tick: one that comes after it ends the wait
            run.Tick(now);
            run.WriteTo(line);
            if (run.End is null && !line.IsOpen)
                run.LineClosed(line.ClosedBecause ?? "it was closed", now);
            if (run.End is { } end)
                return end;
            var wait = run.NextDeadline - Now();
            await WaitAsync(line, TimeSpan.FromTicks(Math.Clamp(wait.Ticks, 0, LongestWait.Ticks)), request).ConfigureAwait(false);
        }
    }

    private static async ValueTask WaitAsync(ILine line, TimeSpan atMost, CancellationToken request)
    {
        try
        {
            await line.WaitAsync(atMost, request).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (request.IsCancellationRequested)
        {
            // The request is carried out in the next turn.
        }
    }
}

using Bridge.Motion;
using Bridge.Runs;
using Spectre.Console;

namespace Bridge.Cli;

/// <summary>Shows a run: a bar at a terminal, else a line at each change of state and each tenth of the way.</summary>
internal sealed class RunScreen(Report report, int layers, Countdown? countdown) : IRunWatcher
{
    // Leaves room for the words beside it in 80 columns.
    private const int BarColumns = 16;

    private ProgressTask? _bar;
    private int _tenth;

    /// <summary>Runs something with the bar shown.</summary>
    public async Task<RunEnd> ShowAsync(Func<Task<RunEnd>> run)
    {
        if (!report.IsTerminal)
            return await run().ConfigureAwait(false);
        return await Report.Terminal.Progress()
            .Columns(new ProgressBarColumn { Width = BarColumns }, new PercentageColumn(), new TaskDescriptionColumn { Alignment = Justify.Left })
            .StartAsync(context =>
            {
                _bar = context.AddTask("connecting", maxValue: 1);
                return run();
            }).ConfigureAwait(false);
    }

    public void StateChanged(RunProgress progress)
    {
        Progressed(progress);
        if (_bar is null)
            report.Line($"{Clock(progress)}  {progress.State}: {StateWords.Of(progress.State)}"
                + (StateWords.Of(progress.Cause) is { Length: > 0 } why ? $" ({why})" : ""));
    }

    public void Progressed(RunProgress progress)
    {
        if (_bar is not null)
        {
            _bar.Value = Done(progress);
            _bar.Description = Markup.Escape($"{progress.State}: {Where(progress)}");
            return;
        }

        var tenth = (int)(10 * Done(progress));
        if (tenth <= _tenth)
            return;
        _tenth = tenth;
        report.Line($"{Clock(progress)}  {10 * tenth} %  {Where(progress)}, {progress.Records} of {progress.RecordsInAll} records done");
    }

    public void Told(string words) => report.Line(words);

    // The share of the predicted time that has gone; of the records where the time is not known.
    private double Done(RunProgress progress) => countdown is null
        ? (double)progress.Records / progress.RecordsInAll
        : 1 - SecondsLeft(countdown, progress) / Math.Max(countdown.Seconds, 1e-9);

    private static double SecondsLeft(Countdown countdown, RunProgress progress) =>
        countdown.SecondsLeft(progress.Records, progress.Cells);

    private string Where(RunProgress progress)
    {
        var left = countdown is null ? "" : $", {Durations.Of(SecondsLeft(countdown, progress))} left";
        var last = layers > 1 ? $" (last {layers - 1})" : "";
        return $"layer {progress.Layer}{last}, cell ({progress.X}, {progress.Y}){left}";
    }

    private static string Clock(RunProgress progress) => Clock(progress.Elapsed);

    private static string Clock(TimeSpan time) => $"{(int)time.TotalHours}:{time.Minutes:00}:{time.Seconds:00}.{time.Milliseconds / 100}";
}

using Bridge.History;
using Bridge.Runs;
using Spectre.Console;

namespace Bridge.Cli;

/// <summary>A replay at a terminal, under a person's keys.</summary>
internal sealed class ReplayScreen(Report report, Replay replay, double speed, TimeProvider time)
{
    /// <summary>The most letters of a line.</summary>
    public const int Columns = 64;

    private const int MostDoubts = 3;
    private const string Keys = "Space pauses, arrows go back and on, + and - change the speed, Q ends.";

    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(50);

    private double _clock = replay.Seconds;
    private double _speed = speed;
    private bool _isPaused;
    private bool _isOver;

    /// <summary>Plays to the end, or until it is told to end.</summary>
    public async Task<int> PlayAsync()
    {
        report.Line(Keys);
        await Report.Terminal.Live(new Text("")).StartAsync(async screen =>
        {
            var last = time.GetTimestamp();
            while (!_isOver)
            {
                TakeKeys();
                _clock = _isPaused ? _clock : _clock + time.GetElapsedTime(last).TotalSeconds * _speed;
                last = time.GetTimestamp();
                _isOver |= _clock >= replay.Length && !_isPaused;
                _clock = Math.Clamp(_clock, 0, replay.Length);
                replay.GoTo(_clock);
                var rows = Math.Max(4, Report.Terminal.Profile.Height - 6);
                screen.UpdateTarget(new Text(string.Join('\n', Lines(replay, _clock, Math.Min(Columns, Report.Terminal.Profile.Width), rows).Append(Pace()))));
                await Task.Delay(Interval, time).ConfigureAwait(false);
            }
        }).ConfigureAwait(false);
        return ExitCode.Done;
    }

    /// <summary>The moment in words and the layer in letters.</summary>
    public static IEnumerable<string> Lines(Replay replay, double seconds, int columns, int rows) =>
        [Where(replay, seconds), .. Doubts(replay), .. Picture(replay, columns, rows)];

    /// <summary>The layer in letters.</summary>
    public static IReadOnlyList<string> Picture(Replay replay, int columns, int rows) => replay.Worked is { } worked
        ? CellText.Of(worked, replay.Layer, columns, rows)
        : ["The cells are not known: the job in the folder is not the one that was run."];

    /// <summary>What had been in doubt, in words, the last of it.</summary>
    public static IEnumerable<string> Doubts(Replay replay) => replay.Doubts.TakeLast(MostDoubts).Select(SettledDoubtWords.Of);

    /// <summary>A moment in words; one after the end is the end.</summary>
    public static string Where(Replay replay, double seconds)
    {
        var clock = TimeSpan.FromSeconds(Math.Min(seconds, replay.Length));
        var why = StateWords.Of(replay.Cause) is { Length: > 0 } words ? $" ({words})" : "";
        return $"{(int)clock.TotalHours}:{clock.Minutes:00}:{clock.Seconds:00}.{clock.Milliseconds / 100}  {replay.State}: {StateWords.Of(replay.State)}{why}, "
            + $"layer {replay.Layer}, {Counted.Of(replay.Place.Records, "record")}{Cells(replay.Place)} done";
    }

    private static string Cells(JobPlace place) => place.Cells == 0 ? "" : $" and {Counted.Of(place.Cells, "cell")} of the next";

    private string Pace() => FormattableString.Invariant($"{(_isPaused ? "paused" : $"{_speed:0.##} times as fast")}, of {replay.Length:0.0} s");

    private void TakeKeys()
    {
        const int MostKeys = 16; // a terminal that is gone has keys without end
        for (var keys = 0; keys < MostKeys && Console.KeyAvailable; keys++)
            Press(Console.ReadKey(intercept: true));
    }

    private void Press(ConsoleKeyInfo key)
    {
        const double Jump = 5; // seconds of a person's own time
        switch (key)
        {
            case { Key: ConsoleKey.Spacebar }:
                _isPaused = !_isPaused;
                break;
            case { Key: ConsoleKey.LeftArrow }:
                _clock -= Jump * _speed;
                break;
            case { Key: ConsoleKey.RightArrow }:
                _clock += Jump * _speed;
                break;
            case { KeyChar: '+' }:
                _speed = Math.Min(10_000, _speed * 2);
                break;
            case { KeyChar: '-' }:
                _speed = Math.Max(0.1, _speed / 2);
                break;
            case { Key: ConsoleKey.Q or ConsoleKey.Escape }:
                _isOver = true;
                break;
        }
    }
}

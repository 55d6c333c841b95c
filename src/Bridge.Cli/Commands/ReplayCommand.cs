using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Bridge.History;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge replay: a run once more, from its journal.</summary>
internal static class ReplayCommand
{
    public static Command Make(Report report)
    {
        var run = Arguments.Run();
        var speed = new Option<double>("--speed")
        {
            Description = "How many times as fast as it was, 0.1 to 10000.",
            HelpName = "TIMES",
            DefaultValueFactory = _ => 10,
            CustomParser = written => Number(written, 0.1, 10_000) ?? Arguments.Refuse<double>(written, "0.1 to 10000"),
        };
        var at = new Option<double?>("--at")
        {
            Description = "Show this moment of the run's clock, in seconds, and end; at a terminal begin there.",
            HelpName = "SECONDS",
            CustomParser = written => Number(written, 0, 1e9) ?? Arguments.Refuse<double?>(written, "0 and up, in seconds"),
        };
        var command = new ExampleCommand("replay", "Play a run back from its journal: the machine's states and the cells it worked, as they were known then.",
            "bridge replay runs/2026-05-04T16-20-00Z-kite --speed 20", "bridge replay runs/2026-05-04T16-20-00Z-kite --at 12.5")
        {
            run, speed, at,
        };
        command.SetAction((parsed, _) =>
        {
            var past = PastRun.Read(parsed.GetRequiredValue(run));
            if (past.Verification.Problems is [var problem, ..])
                report.Line($"Caution: this record is not whole: {problem}");
            var replay = new Replay(past);
            replay.GoTo(parsed.GetValue(at) ?? 0);
            return report.IsAttended
                ? new ReplayScreen(report, replay, parsed.GetValue(speed), TimeProvider.System).PlayAsync()
                : Task.FromResult(Tell(report, replay, parsed.GetValue(at)));
        });
        return command;
    }

    private static double? Number(ArgumentResult written, double least, double most) =>
        double.TryParse(Arguments.Word(written), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            && number >= least && number <= most
            ? number : null;

    // To a file: a moment and its picture, or every change at once and the last picture.
    private static int Tell(Report report, Replay replay, double? moment)
    {
        if (moment is null)
            TellChanges(report, replay);
        var lines = moment is { } seconds
            ? ReplayScreen.Lines(replay, seconds, ReplayScreen.Columns, ReplayScreen.Columns)
            : ReplayScreen.Picture(replay, ReplayScreen.Columns, ReplayScreen.Columns);
        foreach (var line in lines)
            report.Line(line);
        return ExitCode.Done;
    }

    // What was done after the last change, where a run was cut off, is told too.
    private static void TellChanges(Report report, Replay replay)
    {
        var told = (replay.State, replay.Place);
        do
        {
            if (replay.Entry.Doubt is { } doubt)
                report.Line($"Gone on with. {SettledDoubtWords.Of(doubt)}");
            if (replay.Entry.Kind != JournalKind.State)
                continue;
            told = (replay.State, replay.Place);
            report.Line(ReplayScreen.Where(replay, replay.Seconds));
        }
        while (replay.TryNext());
        if (told != (replay.State, replay.Place))
            report.Line(ReplayScreen.Where(replay, replay.Seconds));
    }
}

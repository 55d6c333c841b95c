using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Bridge.History;

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
            var replay = new Replay(PastRun.Read(parsed.GetRequiredValue(run)));
            replay.GoTo(parsed.GetValue(at) ?? 0);
            return report.IsAttended
                ? new ReplayScreen(report, replay, parsed.GetValue(speed), TimeProvider.System).PlayAsync()
                : Task.FromResult(Tell(report, replay, isMoment: parsed.GetValue(at) is not null));
        });
        return command;
    }

    private static double? Number(ArgumentResult written, double least, double most) =>
        double.TryParse(Arguments.Word(written), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            && number >= least && number <= most
            ? number : null;

    // To a file: every change of state at once, then the picture.
    private static int Tell(Report report, Replay replay, bool isMoment)
    {
        if (!isMoment)
            do
            {
                if (replay.Entry.Kind == Runs.JournalKind.State)
                    report.Line(ReplayScreen.Where(replay));
            }
            while (replay.TryNext());
        foreach (var line in ReplayScreen.Lines(replay, ReplayScreen.Columns, ReplayScreen.Columns))
            report.Line(line);
        return ExitCode.Done;
    }
}

using System.CommandLine;
using System.Globalization;
using System.Text;
using Bridge.History;

namespace Bridge.Cli;

/// <summary>bridge runs: the runs that were, listed, and removed on yes.</summary>
internal static class RunsCommand
{
    public static Command Make(Report report)
    {
        var runs = Arguments.Runs("The folder that the folders of the runs are in.");
        var machine = new Option<string>("--machine-name") { Description = "Only those on the machine of this name.", HelpName = "NAME" };
        var ended = new Option<string>("--ended")
        {
            Description = $"Only those that ended so: {string.Join(", ", RunFilter.Ends)}.",
            HelpName = "HOW",
        };
        ended.Validators.Add(written =>
        {
            if (written.Tokens is not [{ Value: var how }] || !RunFilter.Ends.Contains(how.ToLowerInvariant()))
                written.AddError($"--ended: found {Shown.Of(string.Join(' ', written.Tokens))}; allowed: {string.Join(", ", RunFilter.Ends)}.");
        });
        var after = Date("--after", "Only those that began on this day or after it: a date as 2026-05-04, or a date and time (ISO 8601).");
        var before = Date("--before", "Only those that began before this day or time.");
        var prune = Arguments.Flag("--prune", "Remove the folders of those that are listed, after a question; one of the choices above has to say which.");
        var yes = Arguments.Flag("--yes", "With --prune: answers the question with yes.");
        var csv = Arguments.File("--csv", "FILE", "Where to write the list as CSV.");
        var lines = Arguments.File("--jsonl", "FILE", "Where to write the list as JSON Lines.");
        var command = new ExampleCommand("runs",
            "List the runs that were: when, on what, how they ended, how long they took. With --prune remove those listed.",
            "bridge runs", "bridge runs --ended aborted --after 2026-05-01", "bridge runs --before 2026-01-01 --prune")
        {
            runs, machine, ended, after, before, prune, yes, csv, lines,
        };
        command.Demand(parsed =>
        {
            if (parsed.GetValue(prune) && new Option[] { machine, ended, after, before }.All(option => parsed.GetResult(option) is null))
                parsed.AddError("--prune: found alone; allowed: with --machine-name, --ended, --after or --before, which say what is removed.");
            if (parsed.GetValue(yes) && !parsed.GetValue(prune))
                parsed.AddError("--yes: found without --prune; allowed: beside it.");
        });
        command.SetAction(parsed =>
        {
            var filter = new RunFilter(parsed.GetValue(machine), parsed.GetValue(ended), parsed.GetValue(after), parsed.GetValue(before));
            var files = new OutputFiles([], ("--csv", parsed.GetValue(csv)), ("--jsonl", parsed.GetValue(lines)));
            var (all, unreadable) = RunLine.ReadAll(parsed.GetRequiredValue(runs));
            var listed = all.Where(filter.Holds).ToList();
            List(report, listed, unreadable, all.Count);
            var data = DataOut.Of(listed);
            files.Write([.. new[] { (parsed.GetValue(csv), data.ToCsv()), (parsed.GetValue(lines), data.ToJsonLines()) }
                .Where(file => file.Item1 is not null).Select(file => (ReadOnlyMemory<byte>)Encoding.UTF8.GetBytes(file.Item2))]);
            return parsed.GetValue(prune) ? RunPruning.Prune(report, listed, parsed.GetValue(yes)) : ExitCode.Done;
        });
        return command;
    }

    private static Option<DateTimeOffset?> Date(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "DATE",
        CustomParser = written => DateTimeOffset.TryParseExact(Arguments.Word(written), ["yyyy-MM-dd", "yyyy-MM-ddTHH:mm:ssK", "yyyy-MM-ddTHH:mmK"],
            CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var at)
            ? at
            : Arguments.Refuse<DateTimeOffset?>(written, "a date as 2026-05-04, or with its time as 2026-05-04T16:20:00Z"),
    };

    private static void List(Report report, List<RunLine> listed, IReadOnlyList<string> unreadable, int all)
    {
        if (listed.Count > 0)
            report.Numbers(["run", "machine", "device", "ended", "records", "took", "predicted"], [.. listed.Select(run => new[]
            {
                run.Name, run.Machine, run.Device, run.OutcomeWord, $"{run.RecordsDone?.ToString(CultureInfo.InvariantCulture) ?? "?"} of {run.Records}",
                Time(run.JobSeconds), Time(run.PredictedSeconds),
            })]);
        foreach (var line in unreadable)
            report.Line($"Cannot be read: {line}");
        report.Line($"{Counted.Of(listed.Count, "run")}{(listed.Count < all ? $" of {all}" : "")}, {listed.Sum(run => run.Bytes) / 1e6:0.0} MB.");
    }

    private static string Time(double? seconds) => seconds is { } known ? Durations.Of(known) : "";
}

using System.Globalization;
using Bridge.Motion;
using Bridge.Runs;

namespace Bridge.History;

/// <summary>The report of a run: all that its folder tells, on one page.</summary>
public static class RunReport
{
    /// <summary>Makes it.</summary>
    public static Page Of(PastRun run)
    {
        var (times, worked, spans) = (default(JobTimes), default(WorkedCells), StateSpan.Of(run));
        Parallel.Invoke(() => times = JobTimes.Of(run), () => worked = WorkedIn(run)); // what takes long in a run of hours
        var sections = new List<Section> { Head(run), Proof(run), Before(run), Course(run, spans) };
        if (Troubles(spans) is { Count: > 0 } troubles)
            sections.Add(new Section("Faults", [.. troubles]));
        if (times is { Done: > 0 })
            sections.Add(TimeSection.Of(run, times));
        if (worked is not null)
            sections.Add(WorkSection.Of(run, worked));
        if (References.Of(run) is { Count: > 0 } references)
            sections.Add(LostSection(references));
        sections.Add(Link(run));
        sections.Add(Files(run));
        return new Page($"Run {run.Name}", Lead(run), sections);
    }

    private static WorkedCells? WorkedIn(PastRun run)
    {
        var replay = new Replay(run);
        replay.GoTo(double.MaxValue);
        return replay.Worked;
    }

    private static string Lead(PastRun run)
    {
        var words = run.Summary is { } summary ? $"{summary.Words} {summary.WhatToDo}".TrimEnd() : "";
        return $"{run.OutcomeWord}. {words}".TrimEnd();
    }

    private static Section Head(PastRun run)
    {
        var device = run.Journal.Entries.LastOrDefault(entry => entry.Kind == JournalKind.Device);
        var blocks = new List<Block>();
        foreach (var problem in run.Verification.Problems.Take(1))
            blocks.Add(new Block.Words($"This record is not whole: {problem}", IsWarning: true));
        foreach (var missing in run.Missing)
            blocks.Add(new Block.Words(missing, IsWarning: true));
        blocks.Add(new Block.Facts(
            ("machine", run.Begin.Machine ?? "not told"),
            ("device", run.Begin.Device ?? "not told"),
            ("firmware", device is null ? "not told" : $"{device.Firmware}, wire {device.Wire}, last reset: {device.Reset}"),
            ("program", run.Begin.Program ?? run.Summary?.Program ?? "not told"),
            ("began", Told(run.Begin.At ?? run.Summary?.Began)),
            ("gone on with", GoneOn(run)),
            ("operator", run.Checklists is [.., var list] ? list.Operator ?? "nobody: it was run unattended" : "nobody is named")));
        return new Section("The run", [.. blocks]);
    }

    private static string GoneOn(PastRun run)
    {
        var (again, layers, last) = (new List<JournalEntry>(), 0, default(string));
        foreach (var entry in run.Journal.Entries)
        {
            if (entry.Kind == JournalKind.End)
                last = entry.Outcome;
            if (entry.Kind is not (JournalKind.TakeUp or JournalKind.Restart))
                continue;
            if (last == nameof(RunOutcome.LayerDone))
                layers++;
            else
                again.Add(entry);
            last = null;
        }

        if (again.Count == 0)
            return layers == 0 ? "never" : $"only at {Words.Count(layers, "change")} of layer, after the machine had referenced";
        var isBack = again.Prepend(run.Begin).Zip(again).Any(pair => pair.Second.At < pair.First.At);
        return $"{Words.Count(again.Count, "time")}, last {Told(again[^1].At)}{(isBack ? "; the computer's clock was set back meanwhile" : "")}";
    }

    private static Section Proof(PastRun run) => run.Job is not { } job
        ? new Section("The job and its proof", new Block.Words("Not known: see above."))
        : new Section("The job and its proof", [
            new Block.Facts(
                ("records", $"{job.Job.Image.Count} in {job.Job.Image.Bytes.Length} of {job.Machine.StoreBytes} bytes; {job.RecordsToSend} with each repeat"),
                ("cells", $"{job.Proof.WorkedByA} by head a, {job.Proof.WorkedByB} by head b, on {Words.Count(job.Proof.Layers, "layer")}"),
                ("proved", "each record within the grid, the store and the machine's rules"),
                ("job", run.Begin.JobDigest ?? ""), ("machine file", run.Begin.MachineDigest ?? "")),
            .. job.Proof.Cautions.Take(20).Select(caution => new Block.Words($"Caution: {caution.Refusal}"))]);

    private static Section Before(PastRun run) => run.Checklists.Count == 0
        ? new Section("Before it moved", new Block.Words("No checklist: the mock device moves nothing, and a board is asked for one."))
        : new Section("Before it moved", [.. run.Checklists.SelectMany(OfChecklist)]);

    private static IEnumerable<Block> OfChecklist(ChecklistRecord list)
    {
        yield return new Block.Facts(
            ("asked", Told(list.At)),
            ("answered by", list.Operator ?? "nobody: it was run unattended"),
            ("e-stop", list.EStopTried is { } tried ? $"seen to open and close, {Told(tried)}" : "not tried this time"));
        if (list.Answers.Count > 0)
            yield return new Block.Table(["answered yes", "at"], [.. list.Answers.Select(answer => (IReadOnlyList<string>)[answer.Ask, Told(answer.At)])], 1);
    }

    private static Section Course(PastRun run, IReadOnlyList<StateSpan> spans)
    {
        const int MostRows = 200;
        var rows = spans.Take(MostRows).Select(span => (IReadOnlyList<string>)[
            Words.Clock(span.Begins), Number(span.Seconds, "0.0"), run.Job is null ? "" : Words.Place(span.Place), Words.Of(span)]).ToList();
        return new Section("What happened", [
            new Block.Strip([.. spans.Select(span => (span.Begins, span.Seconds, Words.Of(span), Words.TintOf(span.State)))]),
            new Block.Table(["clock", "seconds", "done by then", "state"], rows, 2),
            .. spans.Count > MostRows ? new Block[] { new Block.Words($"And {spans.Count - MostRows} more changes of state.") } : []]);
    }

    private static List<Block> Troubles(IReadOnlyList<StateSpan> spans) => [.. spans
        .Where(span => StateWords.WhatToDo(span.Cause).Length > 0 && !Wire.StateTable.IsActing(span.State))
        .Take(50)
        .Select(span => new Block.Words(
            $"{Words.Clock(span.Begins)}: {span.State} because {StateWords.Of(span.Cause)}. {StateWords.WhatToDo(span.Cause)}", IsWarning: true))];

    private static Section LostSection(IReadOnlyList<JournalEntry> references)
    {
        const int MostRows = 300;
        var axes = references.SelectMany(referenced => referenced.Lost!).ToList();
        return new Section("Steps lost",
            new Block.Words("Where the machine referenced again, so far was each axis from where it was believed:"),
            new Block.Table(["when", "axis", "steps", "mm", "give or take, mm"], [.. references.SelectMany(OfReferences).Take(MostRows)], 2),
            new Block.Words("Give or take is two standard uncertainties of a difference of two references, from the repeatability in the machine file"
                + (axes.All(axis => axis.UncertaintyMm is not null) ? "." : "; bridge setup or bridge calibrate repeat puts it there.")),
            axes.Any(axis => Math.Abs(axis.Steps) > LostLimit.Steps)
                ? new Block.Words($"More than {LostLimit.Steps} steps: look at the belt, its pulleys and what the carriage runs against.", IsWarning: true)
                : new Block.Words($"Within {LostLimit.Steps} steps, which is how well an endstop closes (common practice); "
                    + "bridge health tells how well this one repeats."));

        static IEnumerable<IReadOnlyList<string>> OfReferences(JournalEntry referenced) => referenced.Lost!.Select(axis => (IReadOnlyList<string>)[
            (referenced.Layer is { } layer ? $"before layer {layer}" : "after the run") + $", in {Number(referenced.Took ?? 0, "0.0")} s",
            axis.Axis.ToString(), axis.Steps.ToString(CultureInfo.InvariantCulture), Number(axis.Mm, "0.000"),
            axis.UncertaintyMm is { } mm ? Number(Measured.Coverage * mm, "0.000") : "not known"]);
    }

    private static Section Link(PastRun run) => run.Summary is not { } summary
        ? new Section("The link", new Block.Words("Not known: the run's end was not reached."))
        : new Section("The link", new Block.Facts(
            ("frames sent", Count(summary.FramesSent)),
            ("sent again", Count(summary.Retransmissions)),
            ("frames received", Count(summary.FramesReceived)),
            ("damaged", Count(summary.DamagedFrames)),
            ("round trips", summary.RoundTripMs is { } ms
                ? $"{summary.RoundTrips} measured: {Number(ms.Least, "0.0")} ms at least, "
                    + $"{Number(ms.Mean, "0.0")} ms in the mean, {Number(ms.Most, "0.0")} ms at most"
                : "none measured"),
            ("told of", run.HasParts ? "the last part of the run alone" : "the whole run")));

    private static Section Files(PastRun run)
    {
        const int MostRows = 300;
        var blocks = new List<Block>
        {
            new Block.Facts(
                ("verified", run.Verification.IsWhole ? "all is as the run left it" : $"not whole: {Words.Count(run.Verification.Problems.Count, "problem")}"),
                ("entries", $"{run.Verification.Entries} that follow from one another"),
                ("seal", run.Verification.Seal ?? "none: the journal has no chain")),
        };
        blocks.AddRange(run.Verification.Problems.Take(20).Select(problem => new Block.Words(problem.ToString(), IsWarning: true)));
        blocks.Add(new Block.Table(["file", "SHA-256"],
            [.. run.Verification.Files.Take(MostRows).Select(file => (IReadOnlyList<string>)[file.Key, file.Value])], 1));
        return new Section("The record itself", [.. blocks]);
    }

    private static string Told(DateTimeOffset? at) => at?.ToString("yyyy-MM-ddTHH:mm:sszzz", CultureInfo.InvariantCulture) ?? "not told";

    private static string Count(long? count) => count?.ToString(CultureInfo.InvariantCulture) ?? "not told";

    private static string Number(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture);
}

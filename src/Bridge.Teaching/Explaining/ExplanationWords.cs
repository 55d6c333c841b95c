using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>What the three forms of an explanation say alike.</summary>
internal static class ExplanationWords
{
    /// <summary>The job in a few lines.</summary>
    public static IEnumerable<string> Summary(JobExplanation job)
    {
        yield return $"{Count(job.Count, "record")} of {Count(job.RecordBytes, "byte")}, {Count(job.Count * job.RecordBytes, "byte")} in all, "
            + $"for a grid of {job.Grid}";
        var (a, b) = job.Worked.Counts;
        yield return $"{Count(job.Cells, "cell")} worked: {a} by head a, {b} by head b";
        yield return job is { Machine: { } machine, Seconds: { } seconds }
            ? FormattableString.Invariant($"{seconds:0.0} s on {machine.Name}, a hold for the operator counted as no time")
            : "how long it takes is a machine's to say: give a machine file";
        yield return job.Reading;
    }

    /// <summary>What a record does, in a line or two.</summary>
    public static IEnumerable<string> Doing(ExplainedRecord record)
    {
        if (record is { From: { } from, To: { } to })
        {
            yield return $"from {At(from)} to {At(to)}";
            yield return string.Join("; ", Facts(record));
        }
        else if (record.Acts)
        {
            yield return "the job never comes to it";
        }
    }

    /// <summary>What stops the job and what is left out, if anything.</summary>
    public static IEnumerable<string> Closing(JobExplanation job)
    {
        if (job.LeftOut > 0)
            yield return $"{Count(job.LeftOut, "more record")} left out: {JobExplanation.MostRecords} are explained.";
        if (job.Fault is { } fault)
            yield return $"Problem: {fault}";
    }

    /// <summary>The bytes of a record in hexadecimal digits.</summary>
    public static string Hex(ExplainedRecord record) =>
        string.Join(' ', Convert.ToHexString(record.Bytes.Span).Chunk(2).Select(pair => new string(pair)));

    private static IEnumerable<string> Facts(ExplainedRecord record)
    {
        var cells = Count(record.Cells, "cell");
        yield return record.Times == 1 ? cells : $"done {record.Times} times, {cells} in all; where it begins and ends is of the first time";
        yield return $"{record.CellsBefore} before it";
        if (record is { Seconds: { } seconds, BeginsAt: { } begins })
            yield return FormattableString.Invariant($"{seconds:0.00} s, begins at {begins:0.00} s");
    }

    private static string At(Position position) => $"{position.Cell} on layer {position.Layer}, head {RecordWords.Name(position.Head)}";

    /// <summary>A number of things, in words that fit one as well.</summary>
    public static string Count(long number, string word) => $"{number} {word}{(number == 1 ? "" : "s")}";
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Say the same in fewer records.</summary>
internal sealed record ShortenExercise : Exercise
{
    private readonly IReadOnlyList<Record> _job;
    private readonly int _records;

    /// <param name="level">How hard it is.</param>
    /// <param name="job">The job, without its end.</param>
    /// <param name="shorter">A shorter one that works the same cells.</param>
    public ShortenExercise(int level, IReadOnlyList<Record> job, IReadOnlyList<Record> shorter)
        : base(level,
            [
                $"Shorten this job to {(shorter.Count == 1 ? "one record" : $"{shorter.Count} records")}; its end is not counted, and need not be written:",
                .. job.Chunk(6).Select(some => "  " + string.Join("   ", some.Select(Hex))),
                "Write the bytes of the records, as in: 40 12 04 60 33 11",
            ],
            string.Join("  ", shorter.Select(Hex))) => (_job, _records) = (job, shorter.Count);

    public override string? Wrong(string typed)
    {
        var digits = string.Concat(Words(typed));
        if (digits.Length == 0 || digits.Length % 6 != 0 || digits.Length > 6 * 85 || !digits.All(char.IsAsciiHexDigit))
            return "write whole records, each as three bytes of two hexadecimal digits";
        var records = Enumerable.Range(0, digits.Length / 6)
            .Select(at => RecordCodec.Read(Width, Convert.FromHexString(digits.AsSpan(6 * at, 6)))).TakeWhile(record => record.Verb != Verb.End).ToList();
        var (cells, fault) = CellsOf(records);
        if (fault is not null)
            return $"{fault.Refusal.Place}: found {fault.Refusal.Found}; allowed: {fault.Refusal.Allowed}";
        var (missing, extra) = (CellsOf(_job).Cells.Except(cells).Count(), cells.Except(CellsOf(_job).Cells).Count());
        return missing + extra > 0 ? $"it works other cells: {missing} missing, {extra} too many"
            : records.Count > _records ? $"it works the same cells in {records.Count} records, and {_records} will do"
            : null;
    }

    private static (HashSet<(Cell Cell, int Layer, Head Head)> Cells, JobFault? Fault) CellsOf(IReadOnlyList<Record> records)
    {
        var interpreter = new Interpreter(Image.Of(Width, [.. records, Record.End]), Grid);
        var cells = new HashSet<(Cell, int, Head)>();
        while (interpreter.MoveNext())
            cells.Add((interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head));
        return (cells, interpreter.Fault);
    }
}

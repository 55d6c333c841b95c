using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Say the same in fewer records.</summary>
internal sealed record ShortenExercise : Exercise
{
    private readonly string _pattern;
    private readonly LessonJob _job;
    private readonly IReadOnlyList<Record> _shorter;

    /// <param name="recipe">The job, without its end, and a shorter one that does the same.</param>
    public ShortenExercise(ShortenRecipe recipe)
        : this(recipe, new LessonJob(recipe.Shorter))
    {
    }

    private ShortenExercise(ShortenRecipe recipe, LessonJob shorter)
        : base(
            Difficulty.Of(
                (recipe.Shorter.Count - 1, "further records"),
                (recipe.Shorter.Count(record => record.Verb == Verb.Again), "again"),
                (recipe.Job.Any(IsSingleCell) ? 1 : 0, "single cells to be joined"),
                (recipe.IsMixed ? 1 : 0, "in mixed order"),
                (recipe.Shorter.Any(RecordDifficulty.IsDiagonal) ? 1 : 0, "diagonal"),
                (shorter.Slopes, "slope of a line")),
            [
                $"Shorten this job to {(recipe.Shorter.Count == 1 ? "one record" : $"{recipe.Shorter.Count} records")}; "
                + "its end is not counted, and need not be written:",
                .. recipe.Job.Chunk(6).Select(some => "  " + string.Join("   ", some.Select(Hex))),
                "It must work the same cells with the same heads, and wait as long on each layer.",
                "Write the bytes of the records, as in: 40 12 04 60 33 11",
            ],
            string.Join("  ", recipe.Shorter.Select(Hex))) => (_pattern, _job, _shorter) = (recipe.Name, new LessonJob(recipe.Job), recipe.Shorter);

    public override string Pattern => $"shorten {_pattern}";

    internal override IReadOnlyList<Record> Records => _shorter;

    public override string? Wrong(string typed)
    {
        var digits = string.Concat(Words(typed));
        if (digits.Length == 0 || digits.Length % 6 != 0 || digits.Length > 6 * 85 || !digits.All(char.IsAsciiHexDigit))
            return "write whole records, each as three bytes of two hexadecimal digits";
        var records = Enumerable.Range(0, digits.Length / 6)
            .Select(at => RecordCodec.Read(Width, Convert.FromHexString(digits.AsSpan(6 * at, 6)))).TakeWhile(record => record.Verb != Verb.End).ToList();
        var typedJob = new LessonJob(records);
        if (typedJob.Fault is { } fault)
            return $"{fault.Refusal.Place}: found {fault.Refusal.Found}; allowed: {fault.Refusal.Allowed}";
        var (missing, extra) = (_job.Worked.Except(typedJob.Worked).Count(), typedJob.Worked.Except(_job.Worked).Count());
        return missing + extra > 0 ? $"it works other cells: {missing} missing, {extra} too many"
            : !typedJob.RestsAs(_job) ? $"it waits {typedJob.Tenths} tenths of a second in all, where {_job.Tenths} are right, or holds or waits elsewhere"
            : records.Count > _shorter.Count ? $"it does the same in {records.Count} records, and {_shorter.Count} will do"
            : null;
    }

    private static bool IsSingleCell(Record record) => record.Verb == Verb.Row && record.PairPq(Width) == 0;
}

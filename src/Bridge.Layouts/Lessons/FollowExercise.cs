using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>What has this job done in the end?</summary>
internal sealed record FollowExercise : Exercise
{
    private static readonly string[] Names = ["cells", "x", "y", "layer", "head", "tenths"];

    private readonly IReadOnlyList<Record> _records;

    /// <param name="records">The records, without the end. They work no place twice.</param>
    public FollowExercise(IReadOnlyList<Record> records)
        : this(records, new LessonJob(records))
    {
    }

    private FollowExercise(IReadOnlyList<Record> records, LessonJob job)
        : base(
            Difficulty.Of(
                (Math.Max(0, records.Count - 2), "records beyond two"),
                (records.Count(record => record.Verb == Verb.Again), "again"),
                (records.Any(IsLongAgain) ? 1 : 0, "again over several records"),
                (records.Count(record => record.Verb == Verb.Patch), "where a patch ends"),
                (records.Count(record => record.Verb == Verb.Line), "where a line begins"),
                (records.Sum(RecordDifficulty.Direction), "falling or diagonal")),
            [
                "Follow this job, from (0, 0) on layer 0 with head a:",
                .. records.Append(Record.End).Chunk(6).Select(some => "  " + string.Join("   ", some.Select(Hex))),
                "How many cells does it work, and where is the head in the end? For how long does it wait, holds left out?",
                "Write cells, x, y, layer, head and tenths of a second, as in: 12 5 7 3 a 20",
            ],
            FormattableString.Invariant($"{job.Worked.Count} {job.End.Cell.X} {job.End.Cell.Y} {job.End.Layer} ")
            + FormattableString.Invariant($"{RecordWords.Name(job.End.Head)} {job.Tenths}")) => _records = records;

    public override string Pattern => $"follow {Verbs(_records)}";

    internal override IReadOnlyList<Record> Records => [.. _records, Record.End];

    public override string? Wrong(string typed)
    {
        var (words, right) = (Words(typed.ToLowerInvariant()), Words(Answer));
        if (words.Length != right.Length)
            return $"{words.Length} words, where {right.Length} are asked for";
        var wrong = Names.Where((_, word) => words[word] != right[word]).ToList();
        return wrong.Count == 0 ? null : $"not right: {string.Join(", ", wrong)}";
    }

    private static bool IsLongAgain(Record record) => record.Verb == Verb.Again && record.PairXy(Width) > 0;
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Which record is this?</summary>
internal sealed record DecodeExercise : Exercise
{
    private static readonly string[] Names = ["verb", "head", "heading", "rise", "x", "y", "p", "q"];

    private readonly Record _record;

    public DecodeExercise(Record record)
        : base(
            Difficulty.Of(
                (RecordDifficulty.OpFields(record), "head, heading, rise set"),
                (RecordDifficulty.OtherFields(record), "verb other than go and row")),
            [
                $"Decode this record: {Hex(record)}",
                "Write verb, head, heading, rise, x, y, p and q, as in: go b 0 0 7 7 0 0",
            ],
            $"{record.Verb.ToString().ToLowerInvariant()} {RecordWords.Name(record.Head)} {record.Heading} "
            + $"{(record.Rise ? 1 : 0)} {record.X} {record.Y} {record.P} {record.Q}") => _record = record;

    public override string Pattern => $"decode {Name(_record)}";

    internal override IReadOnlyList<Record> Records => [_record];

    public override string? Wrong(string typed)
    {
        var (words, right) = (Words(typed.ToLowerInvariant()), Words(Answer));
        if (words.Length != right.Length)
            return $"{words.Length} words, where 8 are asked for";
        var wrong = Names.Where((_, word) => words[word] != right[word]).ToList();
        return wrong.Count == 0 ? null : $"not right: {string.Join(", ", wrong)}";
    }
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Which bytes say this?</summary>
internal sealed record EncodeExercise : Exercise
{
    private readonly Record _record;

    public EncodeExercise(Record record)
        : base(
            Difficulty.Of(
                (1, "fields to be put together"),
                (RecordDifficulty.OpFields(record), "head, heading, rise set"),
                (RecordDifficulty.OtherFields(record), "verb other than go and row"),
                (RecordDifficulty.Direction(record), "falling or diagonal")),
            [
                $"Write this record: {RecordWords.Meaning(Width, record)}.",
                "Write its bytes in hexadecimal digits, as in: 30 77 00",
            ],
            Hex(record)) => _record = record;

    public override string Pattern => $"encode {Name(_record)}";

    internal override IReadOnlyList<Record> Records => [_record];

    public override string? Wrong(string typed)
    {
        var digits = string.Concat(Words(typed));
        if (digits.Length != 2 * Width.Bytes || !digits.All(char.IsAsciiHexDigit))
            return "write three bytes, each as two hexadecimal digits";
        var record = RecordCodec.Read(Width, Convert.FromHexString(digits));
        return record == _record ? null : $"these bytes mean: {RecordWords.Meaning(Width, record)}"
            + (ReservedBits.SetIn(record) is { Length: > 0 } set ? $"; and {set} should be 0" : "");
    }
}

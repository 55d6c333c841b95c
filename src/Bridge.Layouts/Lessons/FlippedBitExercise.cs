using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Which bit is wrong?</summary>
internal sealed record FlippedBitExercise : Exercise
{
    private readonly FlippedBit _flipped;
    private readonly bool _isPicture;

    /// <param name="flipped">The record and its wrong bit.</param>
    /// <param name="isPicture">Whether only the cells are told that it should work, and not the record.</param>
    public FlippedBitExercise(FlippedBit flipped, bool isPicture)
        : base(
            Difficulty.Of(
                (isPicture ? 2 : 0, "only its cells are told"),
                (flipped.IsInOp ? 1 : 0, "in verb, head, heading or rise"),
                (flipped.IsPossible ? 1 : 0, "the wrong record is possible too"),
                (RecordDifficulty.Direction(flipped.Right), "falling or diagonal")),
            [
                isPicture ? ToldByCells(flipped.Right) : $"The record should mean: {RecordWords.Meaning(Width, flipped.Right)}.",
                $"In the store stands: {flipped.WrongBits}",
                "One bit is wrong. Which, counted from the left, the first being 1?",
            ],
            $"{flipped.Bit + 1}") => (_flipped, _isPicture) = (flipped, isPicture);

    public override string Pattern => $"flipped {(_isPicture ? "picture " : "")}{Name(_flipped.Right)} {(_flipped.IsInOp ? "op" : "numbers")}";

    internal override IReadOnlyList<Record> Records => [_flipped.Right];

    public override string? Wrong(string typed) => int.TryParse(typed.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var bit) && bit is >= 1
        and <= 24
        ? $"{bit}" == Answer ? null : $"not bit {bit}"
        : "write a number from 1 to 24";

    private static string ToldByCells(Record record) => $"The record should {(record.Rise ? "go up a layer and then " : "")}work these cells with head "
        + $"{RecordWords.Name(record.Head)}: {string.Join(' ', new LessonJob([record]).Worked.Select(work => $"{work.Cell.X},{work.Cell.Y}"))}";
}

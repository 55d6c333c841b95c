using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Which bit is wrong?</summary>
internal sealed record FlippedBitExercise : Exercise
{
    public FlippedBitExercise(int level, Record record, int bit)
        : base(level,
            [
                $"The record should mean: {RecordWords.Meaning(Width, record)}.",
                $"In the store stands: {Bits(record, bit)}",
                "One bit is wrong. Which, counted from the left, the first being 1?",
            ],
            $"{bit + 1}")
    {
    }

    public override string? Wrong(string typed) => int.TryParse(typed.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var bit) && bit is >= 1
        and <= 24
        ? $"{bit}" == Answer ? null : $"not bit {bit}"
        : "write a number from 1 to 24";

    private static string Bits(Record record, int flipped)
    {
        var bytes = Convert.FromHexString(Hex(record).Replace(" ", "", StringComparison.Ordinal));
        bytes[flipped / 8] ^= (byte)(0x80 >> flipped % 8);
        return string.Join(' ', bytes.Select(octet => octet.ToString("b8", CultureInfo.InvariantCulture)));
    }
}

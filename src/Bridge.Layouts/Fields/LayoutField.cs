namespace Bridge.Layouts;

/// <summary>Some bits of a record that hold a number.</summary>
/// <param name="Name">What the layout calls it.</param>
/// <param name="Bits">Its bits, the most significant first, counted from 0, the lowest bit of the record's last byte; 1 to 24 of them.</param>
/// <param name="IsInverted">Whether a 1 in the number is a 0 in the record.</param>
public sealed record LayoutField(string Name, IReadOnlyList<int> Bits, bool IsInverted)
{
    /// <summary>All its bits in a record.</summary>
    public ulong Mask => Bits.Aggregate(0UL, (mask, bit) => mask | 1UL << bit);

    /// <summary>The number in a record.</summary>
    public int Read(ulong word) => Bits.Aggregate(0, (number, bit) => number << 1 | (int)(word >> bit & 1)) ^ (IsInverted ? Largest : 0);

    /// <summary>The bits of a number, all others 0. The number fits the field.</summary>
    public ulong Write(int number)
    {
        var left = number ^ (IsInverted ? Largest : 0);
        var word = 0UL;
        for (var at = Bits.Count - 1; at >= 0; at--, left >>= 1)
            word |= (ulong)(left & 1) << Bits[at];
        return word;
    }

    /// <summary>The largest number that it holds.</summary>
    public int Largest => (1 << Bits.Count) - 1;
}

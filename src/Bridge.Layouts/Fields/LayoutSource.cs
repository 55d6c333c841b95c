namespace Bridge.Layouts;

/// <summary>Where a verb finds the number of a role: always the same one, or in fields, joined with the most significant first.</summary>
/// <param name="Always">The number where it is always the same; null where fields hold it.</param>
/// <param name="Fields">The fields that hold it; none where it is always the same.</param>
public sealed record LayoutSource(int? Always, IReadOnlyList<LayoutField> Fields)
{
    /// <summary>Bits of the number, 0 to 24.</summary>
    public int Width => Fields.Sum(part => part.Bits.Count);

    /// <summary>Its bits in a record.</summary>
    public ulong Mask => Fields.Aggregate(0UL, (mask, part) => mask | part.Mask);

    /// <summary>The largest number that it can be.</summary>
    public int Largest => Always ?? (1 << Width) - 1;

    /// <summary>The number in a record.</summary>
    public int Read(ulong word) => Always ?? Fields.Aggregate(0, (number, field) => number << field.Bits.Count | field.Read(word));

    /// <summary>The bits of a number, all others 0; null where it cannot be said.</summary>
    public ulong? Write(int number)
    {
        if (Always is { } always)
            return number == always ? 0UL : null;
        if (number < 0 || number > Largest)
            return null;
        var word = 0UL;
        for (var at = Fields.Count - 1; at >= 0; at--)
        {
            word |= Fields[at].Write(number & Fields[at].Largest);
            number >>= Fields[at].Bits.Count;
        }
        return word;
    }
}

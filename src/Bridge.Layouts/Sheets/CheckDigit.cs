namespace Bridge.Layouts;

/// <summary>
/// The check digit of a row of hexadecimal digits: each digit counts with a power of a primitive element of the field of 16 elements (x^4 + x + 1), so
/// that every single wrong digit and every exchange of two neighbours shows (H. P. Gumm, A new class of check-digit methods for arbitrary number
/// systems, IEEE Transactions on Information Theory 31(1), 1985; from memory). A wrong bit, or two neighbouring bits exchanged, changes one digit, or two
/// neighbours by one bit each at the border, and shows too.
/// </summary>
public static class CheckDigit
{
    /// <summary>The digit, 0 to 15, that stands behind some digits, each 0 to 15.</summary>
    public static int Of(IEnumerable<int> digits) => Times2(digits.Aggregate(0, (sum, digit) => Times2(sum) ^ digit));

    /// <summary>The digit of a row: of its address, 0 to 65 535, and its bytes.</summary>
    public static int Of(int address, ReadOnlySpan<byte> bytes)
    {
        var digits = new List<int> { address >> 12 & 15, address >> 8 & 15, address >> 4 & 15, address & 15 };
        foreach (var octet in bytes)
            digits.AddRange([octet >> 4, octet & 15]);
        return Of(digits);
    }

    // By x in the field: what leaves the four bits comes back as x + 1.
    private static int Times2(int element) => element << 1 & 15 ^ ((element & 8) == 0 ? 0 : 0b0011);
}

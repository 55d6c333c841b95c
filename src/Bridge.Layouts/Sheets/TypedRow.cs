using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>One typed row: an address or none, bits or bytes, and the check digit.</summary>
internal sealed class TypedRow
{
    private const int LongestShown = 90;

    private readonly int _recordBytes;
    private readonly int? _check;

    public TypedRow(int line, string text, int recordBytes)
    {
        (Line, Text, _recordBytes) = (line, MachineFileText.Clean(text, LongestShown), recordBytes);
        var parts = text.Split(':');
        if (parts.Length == 2)
            (HasAddress, AddressText, Address) = (true, MachineFileText.Clean(parts[0].Trim(), LongestShown), Number(parts[0].Trim()));
        var words = parts[^1].Split((char[])[' ', '\t', '\r'], StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length > 2 || words is not [.., { Length: 1 } check] || !char.IsAsciiHexDigit(check[0]))
            return;
        _check = Convert.ToInt32(check, 16);
        var digits = string.Concat(words[..^1]);
        Width = WidthOf(digits);
        Bytes = BytesOf(digits);
    }

    /// <summary>Its line of the text, from 1.</summary>
    public int Line { get; }

    /// <summary>What was typed, fit to be shown.</summary>
    public string Text { get; }

    /// <summary>Whether an address, or what stands for one, was typed.</summary>
    public bool HasAddress { get; }

    /// <summary>What was typed as its address, fit to be shown.</summary>
    public string AddressText { get; } = "";

    /// <summary>The typed address; null where there is none or it is no number.</summary>
    public int? Address { get; }

    /// <summary>How many bits were typed, whole bytes of them; null where that cannot be told.</summary>
    public int? Width { get; }

    /// <summary>The record's bytes; null where they cannot be read.</summary>
    public byte[]? Bytes { get; }

    /// <summary>Its bits and its digit, where it can be read.</summary>
    public string Shown => $"{BitsOf(Bytes)} with check digit {_check:X}";

    public static string BitsOf(ReadOnlySpan<byte> bytes) =>
        string.Join(' ', bytes.ToArray().Select(octet => octet.ToString("b8", CultureInfo.InvariantCulture)));

    /// <summary>Whether its bits and its digit are right for the row at an address.</summary>
    public bool Fits(int address) => Bytes is not null && CheckDigit.Of(address, Bytes) == _check;

    /// <summary>One wrong bit, or two neighbours exchanged, that would make the row right at an address.</summary>
    public string Guess(int address)
    {
        var guesses = new List<string>();
        for (var bit = 0; bit < 8 * _recordBytes; bit++)
        {
            if (IsRightWith(address, bit))
                guesses.Add($"bit {bit + 1}");
            if (bit > 0 && IsSet(bit) != IsSet(bit - 1) && IsRightWith(address, bit - 1, bit))
                guesses.Add($"bits {bit} and {bit + 1} exchanged");
        }
        return guesses.Count == 0 ? "No single wrong bit explains it, nor two neighbours exchanged."
            : $"It would be right with one of these changed, counted from the left: {string.Join(", ", guesses)}.";
    }

    private byte[]? BytesOf(string digits)
    {
        if (digits.Length == 8 * _recordBytes && IsBits(digits))
            return [.. digits.Chunk(8).Select(octet => Convert.ToByte(new string(octet), 2))];
        return digits.Length == 2 * _recordBytes && digits.All(char.IsAsciiHexDigit) ? Convert.FromHexString(digits) : null;
    }

    private static int? WidthOf(string digits) => digits.Length == 0 ? null
        : IsBits(digits) && digits.Length % 8 == 0 ? digits.Length
        : digits.All(char.IsAsciiHexDigit) && digits.Length % 2 == 0 ? 4 * digits.Length
        : null;

    private static bool IsBits(string digits) => digits.All(digit => digit is '0' or '1');

    private bool IsSet(int bit) => (Bytes![bit / 8] >> 7 - bit % 8 & 1) == 1;

    private bool IsRightWith(int address, params ReadOnlySpan<int> bits)
    {
        var changed = (byte[])Bytes!.Clone();
        foreach (var bit in bits)
            changed[bit / 8] ^= (byte)(0x80 >> bit % 8);
        return CheckDigit.Of(address, changed) == _check;
    }

    private static int? Number(string address) =>
        int.TryParse(address, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var number) ? number : null;
}

using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>One typed row: an address or none, bits or bytes, and the check digit.</summary>
internal sealed class TypedRow
{
    private const int LongestShown = 90;

    private readonly string _text;
    private readonly int _recordBytes;
    private readonly string? _address;
    private readonly int? _check;

    public TypedRow(string text, int recordBytes)
    {
        (_text, _recordBytes) = (text, recordBytes);
        var parts = text.Split(':');
        _address = parts.Length == 2 ? parts[0].Trim() : null;
        var words = parts[^1].Split((char[])[' ', '\t', '\r'], StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length > 2 || words is not [.., { Length: 1 } check] || Digit(check[0]) is not { } digit)
            return;
        _check = digit;
        Bytes = BytesOf(string.Concat(words[..^1]));
    }

    /// <summary>The record's bytes; null where they cannot be read.</summary>
    public byte[]? Bytes { get; }

    public static string PlaceOf(int address, int recordBytes) => $"row {address / recordBytes + 1} (address {address:X4})";

    /// <summary>What is wrong with it as the row at an address; null where nothing is.</summary>
    public Refusal? Refusal(string place, int address)
    {
        place = $"{place}, {PlaceOf(address, _recordBytes)}";
        if (Bytes is null || _check is null)
            return new Refusal(place, $"\"{MachineFileText.Clean(_text, LongestShown)}\"",
                $"{8 * _recordBytes} bits or {2 * _recordBytes} hexadecimal digits, then a check digit",
                    "Type the row again: a digit is missing, too many, or no digit.");
        if (_address is not null && !(int.TryParse(_address, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var typed) && typed == address))
            return new Refusal(place, $"the address {MachineFileText.Clean(_address, LongestShown)}", $"{address:X4}",
                "A row is missing, is there twice, or is in the wrong place before this one.");
        var digit = CheckDigit.Of(address, Bytes);
        return digit == _check ? null
            : new Refusal(place, $"{Bits()} with check digit {_check:X}", $"a row whose check digit is the sheet's; these bits have {digit:X}",
            $"The row is wrong: compare it with the sheet bit by bit. {Guess(address)}");
    }

    private byte[]? BytesOf(string digits)
    {
        var bytes = new byte[_recordBytes];
        if (digits.Length == 8 * _recordBytes && digits.All(digit => digit is '0' or '1'))
            for (var bit = 0; bit < digits.Length; bit++)
                bytes[bit / 8] |= (byte)((digits[bit] - '0') << 7 - bit % 8);
        else if (digits.Length == 2 * _recordBytes && digits.All(digit => Digit(digit) is not null))
            bytes = Convert.FromHexString(digits);
        else
            return null;
        return bytes;
    }

    // One wrong bit, or two neighbours exchanged, that would make the row right.
    private string Guess(int address)
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

    private bool IsSet(int bit) => (Bytes![bit / 8] >> 7 - bit % 8 & 1) == 1;

    private bool IsRightWith(int address, params ReadOnlySpan<int> bits)
    {
        var changed = (byte[])Bytes!.Clone();
        foreach (var bit in bits)
            changed[bit / 8] ^= (byte)(0x80 >> bit % 8);
        return CheckDigit.Of(address, changed) == _check;
    }

    private string Bits() => string.Join(' ', Bytes!.Select(octet => octet.ToString("b8", CultureInfo.InvariantCulture)));

    private static int? Digit(char digit) => char.IsAsciiHexDigit(digit) ? Convert.ToInt32($"{digit}", 16) : null;
}

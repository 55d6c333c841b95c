using System.Globalization;
using System.Text;
using System.Text.Unicode;
using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>From a file's bytes to text, and from text to something fit for a message.</summary>
internal static class MachineFileText
{
    private const int LongestQuote = 40;
    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    public static string Decode(ReadOnlySpan<byte> bytes, MachineFileMistakes mistakes)
    {
        if (bytes.Length > MachineFile.MaxBytes)
        {
            const string allowed = "at most 65536 bytes (64 KiB)";
            mistakes.Add(default, "", "more than 65536 bytes", allowed, "Check that this is a machine file.");
            return "";
        }

        if (bytes.StartsWith(ByteOrderMark)) bytes = bytes[ByteOrderMark.Length..];
        if (Utf8.IsValid(bytes)) return Encoding.UTF8.GetString(bytes);

        var sound = SoundLength(bytes);
        mistakes.Add(
            PositionAfter(Encoding.UTF8.GetString(bytes[..sound])),
            "",
            $"the byte 0x{bytes[sound]:X2} where no UTF-8 character can have it",
            "UTF-8 text",
            "Save the file as UTF-8.");
        return "";
    }

    /// <summary>Text in quotes, cut to a length that a line holds, with nothing in it that moves the cursor.</summary>
    public static string Quote(string text) => $"\"{Clean(text)}\"";

    /// <summary>Text cut to a length that a line holds, with nothing in it that moves the cursor.</summary>
    public static string Clean(string text, int longest = LongestQuote)
    {
        var clean = new StringBuilder();
        foreach (var rune in text.EnumerateRunes())
        {
            if (clean.Length >= longest) return clean.Append("...").ToString();
            if (IsPlain(rune)) clean.Append(rune.ToString());
            else clean.Append(CultureInfo.InvariantCulture, $"\\u{rune.Value:X4}");
        }

        return clean.ToString();
    }

    /// <summary>Whether a character shows as itself: no control, formatting or line-breaking character.</summary>
    public static bool IsPlain(Rune rune) => Rune.GetUnicodeCategory(rune) is not (
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
        or UnicodeCategory.Surrogate or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned);

    private static int SoundLength(ReadOnlySpan<byte> bytes)
    {
        var sound = 0;
        while (Rune.DecodeFromUtf8(bytes[sound..], out _, out var used) == System.Buffers.OperationStatus.Done) sound += used;
        return sound;
    }

    private static TextPosition PositionAfter(string text)
    {
        var lastBreak = text.LastIndexOf('\n');
        return new TextPosition(text.Length, text.Count(c => c == '\n'), text.Length - lastBreak - 1);
    }
}

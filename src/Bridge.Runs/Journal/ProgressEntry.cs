using System.Text.Json;
using System.Text.Unicode;

namespace Bridge.Runs;

/// <summary>
/// The entries that tell how far a run is, Sent and Done: nearly all of a journal. They are read by hand: a run of ten hours has 200 000 of them, and the
/// serializer takes twice as long or more.
/// </summary>
internal static class ProgressEntry
{
    /// <summary>Reads one; null for a line that holds anything else, which may be an entry of another kind.</summary>
    /// <exception cref="JsonException">It is no JSON.</exception>
    public static JournalEntry? TryRead(ReadOnlySpan<byte> line)
    {
        var reader = new Utf8JsonReader(line);
        long? number = null, records = null, cells = null;
        double? seconds = null;
        JournalKind? kind = null;
        string? position = null;
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            return null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var isKnown = !reader.ValueIsEscaped && (
                reader.ValueTextEquals("n"u8) ? TryCount(ref reader, out number)
                : reader.ValueTextEquals("seconds"u8) ? TryNumber(ref reader, out seconds)
                : reader.ValueTextEquals("kind"u8) ? TryKind(ref reader, out kind)
                : reader.ValueTextEquals("records"u8) ? TryCount(ref reader, out records)
                : reader.ValueTextEquals("cells"u8) ? TryCount(ref reader, out cells)
                : reader.ValueTextEquals("position"u8) ? TryText(ref reader, out position)
                : reader.ValueTextEquals("chain"u8) && reader.Read() && reader.TokenType == JsonTokenType.String);
            if (!isKnown)
                return null;
        }

        return !reader.Read() && number is { } n && seconds is { } at && kind is { } told
            ? new JournalEntry(n, at, told) { Records = records, Cells = cells, Position = position }
            : null;
    }

    private static bool TryCount(ref Utf8JsonReader reader, out long? count)
    {
        count = reader.Read() && reader.TokenType == JsonTokenType.Number && reader.TryGetInt64(out var value) ? value : null;
        return count is not null;
    }

    private static bool TryNumber(ref Utf8JsonReader reader, out double? number)
    {
        number = reader.Read() && reader.TokenType == JsonTokenType.Number && reader.TryGetDouble(out var value) ? value : null;
        return number is not null;
    }

    private static bool TryKind(ref Utf8JsonReader reader, out JournalKind? kind)
    {
        kind = !IsPlainText(ref reader) ? null
            : reader.ValueTextEquals("Done"u8) ? JournalKind.Done
            : reader.ValueTextEquals("Sent"u8) ? JournalKind.Sent
            : null;
        return kind is not null;
    }

    private static bool TryText(ref Utf8JsonReader reader, out string? text)
    {
        text = IsPlainText(ref reader) ? reader.GetString() : null;
        return text is not null;
    }

    // What is escaped, or no text at all, is the serializer's to judge.
    private static bool IsPlainText(ref Utf8JsonReader reader) =>
        reader.Read() && reader.TokenType == JsonTokenType.String && !reader.ValueIsEscaped && Utf8.IsValid(reader.ValueSpan);
}

using System.Text.Json;
using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>A journal that was read back.</summary>
/// <param name="Entries">Its entries, in order.</param>
/// <param name="WholeLength">Octets up to the end of the last whole entry. What follows was cut in the middle of its write and never counted.</param>
public sealed record JournalFile(IReadOnlyList<JournalEntry> Entries, long WholeLength)
{
    /// <summary>The longest journal that is read: 256 MiB.</summary>
    public const int MaxBytes = 256 << 20;

    /// <summary>Reads a journal.</summary>
    /// <exception cref="RefusedException">It cannot be read, an entry in its midst is damaged or missing, or its format is not known.</exception>
    public static JournalFile Read(string path) => Parse(InputFile.ReadAll(path, MaxBytes), path);

    /// <summary>Reads a journal's octets.</summary>
    /// <param name="octets">The file.</param>
    /// <param name="name">Its name, for a refusal.</param>
    /// <exception cref="RefusedException">An entry in its midst is damaged or missing, or its format is not known.</exception>
    public static JournalFile Parse(ReadOnlySpan<byte> octets, string name)
    {
        var entries = new List<JournalEntry>();
        var at = 0;
        for (int length; (length = octets[at..].IndexOf((byte)'\n')) >= 0; at += length + 1)
        {
            var place = $"{name}, line {entries.Count + 1}";
            if (EntryOf(octets.Slice(at, length)) is not { } entry)
                throw new RefusedException(place, "no whole entry", "one entry of JSON in each line", Damaged);
            if (entry.N != entries.Count)
                throw new RefusedException(place, $"entry {entry.N}", $"entry {entries.Count}", Damaged);
            if (entries.Count == 0 && (entry.Kind != JournalKind.Begin || entry.Format != FileJournal.Format))
                throw new RefusedException(place, $"{entry.Kind} of format {entry.Format}", $"Begin of format {FileJournal.Format}",
                    "It may come from another version of this program.");
            entries.Add(entry);
        }

        return new JournalFile(entries, at);
    }

    private const string Damaged = "The journal was changed or damaged: do not go on from it. Look at what was worked, and plan a new job for the rest.";

    private static JournalEntry? EntryOf(ReadOnlySpan<byte> line)
    {
        try
        {
            return JsonSerializer.Deserialize<JournalEntry>(line, FileJournal.Options);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

using System.Text.Json;
using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>A journal that was read back.</summary>
/// <param name="Entries">Its entries, in order; where it is damaged, those before the first that is.</param>
/// <param name="WholeLength">Octets up to the end of the last of them. Where nothing is damaged, what follows was cut in its write and never counted.</param>
/// <param name="Chain">The link of the last entry, to which the next is chained; null in format 1, which has no chain.</param>
/// <param name="Damage">The first thing that is wrong with it; null where nothing is.</param>
public sealed record JournalFile(IReadOnlyList<JournalEntry> Entries, long WholeLength, JournalChain? Chain, Refusal? Damage = null)
{
    /// <summary>The longest journal that is read: 256 MiB.</summary>
    public const int MaxBytes = 256 << 20;

    private const int Unchained = 1; // the format before the chain

    /// <summary>A journal with nothing in it yet.</summary>
    public static JournalFile Empty { get; } = new([], 0, JournalChain.Start);

    /// <summary>Reads a journal.</summary>
    /// <exception cref="RefusedException">It cannot be read, an entry in its midst is damaged, changed or missing, or its format is not known.</exception>
    public static JournalFile Read(string path) => Parse(InputFile.ReadAll(path, MaxBytes), path);

    /// <summary>Reads a journal's octets.</summary>
    /// <param name="octets">The file.</param>
    /// <param name="name">Its name, for a refusal.</param>
    /// <exception cref="RefusedException">An entry in its midst is damaged, changed or missing, or its format is not known.</exception>
    public static JournalFile Parse(ReadOnlySpan<byte> octets, string name)
    {
        var journal = Examine(octets, name);
        return journal.Damage is { } damage ? throw new RefusedException([damage]) : journal;
    }

    /// <summary>Reads a journal's octets up to the first thing that is wrong, and tells that.</summary>
    /// <param name="octets">The file.</param>
    /// <param name="name">Its name, for the words.</param>
    public static JournalFile Examine(ReadOnlySpan<byte> octets, string name)
    {
        var entries = new List<JournalEntry>();
        JournalChain? chain = JournalChain.Start;
        var at = 0;
        for (int length; (length = octets[at..].IndexOf((byte)'\n')) >= 0; at += length + 1)
            if (DamageOf(octets.Slice(at, length), entries, ref chain, $"{name}, line {entries.Count + 1}") is { } damage)
                return new JournalFile(entries, at, chain, damage);
        return new JournalFile(entries, at, chain);
    }

    // Takes a line, unless something is wrong with it.
    private static Refusal? DamageOf(ReadOnlySpan<byte> line, List<JournalEntry> entries, ref JournalChain? chain, string place)
    {
        if (TryReadEntry(line) is not { } entry)
            return Changed(place, "no whole entry", "one entry of JSON in each line");
        if (entry.N != entries.Count)
            return Changed(place, $"entry {entry.N}", $"entry {entries.Count}");
        if (entries.Count == 0)
        {
            if (entry.Kind != JournalKind.Begin || entry.Format is not (Unchained or FileJournal.Format))
                return new Refusal(place, $"{entry.Kind} of format {entry.Format?.ToString() ?? "unknown"}", $"Begin of format 1 to {FileJournal.Format}",
                    "It may come from another version of this program.");
            chain = entry.Format == Unchained ? null : chain;
        }

        if (chain is { } before)
        {
            if (!JournalChain.TryTake(line, out var body, out var digits) || before.Over(body) is var link && !link.Is(digits))
                return Changed(place, "an entry that does not continue the chain", "what was written there, with its chain to the line before");
            chain = link;
        }

        entries.Add(entry);
        return null;
    }

    private static Refusal Changed(string place, string found, string allowed) => new(place, found, allowed,
        "The journal was changed or damaged: do not go on from it. Look at what was worked, and plan a new job for the rest.");

    /// <summary>Reads one line by itself, whatever stands before it; null where it is no entry.</summary>
    public static JournalEntry? TryReadEntry(ReadOnlySpan<byte> line)
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

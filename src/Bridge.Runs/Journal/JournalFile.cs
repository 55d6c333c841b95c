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

    /// <summary>Octets of the file, what was cut in its write included.</summary>
    public long Length { get; private init; }

    /// <summary>A journal with nothing in it yet.</summary>
    public static JournalFile Empty { get; } = new([], 0, JournalChain.Start);

    /// <summary>Reads a journal.</summary>
    /// <exception cref="RefusedException">It cannot be read, an entry in its midst is damaged, changed or missing, or its format is not known.</exception>
    public static JournalFile Read(string path) => Parse(InputFile.ReadAll(path, MaxBytes), path);

    /// <summary>Reads a journal's octets.</summary>
    /// <param name="octets">The file.</param>
    /// <param name="name">Its name, for a refusal.</param>
    /// <exception cref="RefusedException">An entry in its midst is damaged, changed or missing, or its format is not known.</exception>
    public static JournalFile Parse(ReadOnlyMemory<byte> octets, string name)
    {
        var journal = Examine(octets, name);
        return journal.Damage is { } damage ? throw new RefusedException([damage]) : journal;
    }

    /// <summary>Reads a journal's octets up to the first thing that is wrong, and tells that.</summary>
    /// <param name="octets">The file.</param>
    /// <param name="name">Its name, for the words.</param>
    public static JournalFile Examine(ReadOnlyMemory<byte> octets, string name)
    {
        var lines = LinesOf(octets.Span);
        var read = new JournalEntry?[lines.Count];
        var continues = new bool[lines.Count];

        // Each line is held against the link that the one before it bears, so none waits for another; the first that is wrong counts.
        Parallel.For(0, lines.Count, index =>
        {
            var line = octets.Span[lines[index]];
            read[index] = TryReadEntry(line);
            continues[index] = JournalChain.Continues(line, index == 0 ? default : octets.Span[lines[index - 1]]);
        });

        var isChained = read is not [{ Format: Unchained }, ..];
        var whole = 0;
        Refusal? damage = null;
        while (whole < lines.Count && (damage = DamageOf(read[whole], whole, isChained && !continues[whole], name)) is null)
            whole++;
        return new JournalFile(read[..whole]!, whole == 0 ? 0 : lines[whole - 1].End.Value + 1, isChained ? LinkOf(octets.Span, lines, whole) : null, damage)
        {
            Length = octets.Length,
        };
    }

    private static List<Range> LinesOf(ReadOnlySpan<byte> octets)
    {
        var lines = new List<Range>();
        for (int at = 0, length; (length = octets[at..].IndexOf((byte)'\n')) >= 0; at += length + 1)
            lines.Add(at..(at + length));
        return lines;
    }

    private static JournalChain LinkOf(ReadOnlySpan<byte> octets, List<Range> lines, int whole) =>
        whole > 0 && JournalChain.TryTakeOver(octets[lines[whole - 1]], out var link) ? link : JournalChain.Start;

    private static Refusal? DamageOf(JournalEntry? entry, int index, bool isBroken, string name)
    {
        if (entry is null)
            return Changed(name, index, "no whole entry", "one entry of JSON in each line");
        if (entry.N != index)
            return Changed(name, index, $"entry {entry.N}", $"entry {index}");
        if (index == 0 && (entry.Kind != JournalKind.Begin || entry.Format is not (Unchained or FileJournal.Format)))
            return new Refusal(Place(name, index), $"{entry.Kind} of format {entry.Format?.ToString() ?? "unknown"}",
                $"Begin of format 1 to {FileJournal.Format}",
                "It may come from another version of this program.");
        return isBroken
            ? Changed(name, index, "an entry that does not continue the chain", "what was written there, with its chain to the line before")
            : null;
    }

    private static string Place(string name, int index) => $"{name}, line {index + 1}";

    private static Refusal Changed(string name, int index, string found, string allowed) => new(Place(name, index), found, allowed,
        "The journal was changed or damaged: do not go on from it. Look at what was worked, and plan a new job for the rest.");

    /// <summary>Reads one line by itself, whatever stands before it; null where it is no entry.</summary>
    public static JournalEntry? TryReadEntry(ReadOnlySpan<byte> line)
    {
        try
        {
            return ProgressEntry.TryRead(line) ?? JsonSerializer.Deserialize<JournalEntry>(line, FileJournal.Options);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

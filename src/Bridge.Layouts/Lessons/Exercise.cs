using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>One exercise on 4-bit records: a question, its answer, and how a typed answer is marked.</summary>
/// <param name="Difficulty">How hard it is, measured on the exercise itself.</param>
/// <param name="Question">What is asked, line by line.</param>
/// <param name="Answer">The answer as it may be typed.</param>
public abstract record Exercise(Difficulty Difficulty, IReadOnlyList<string> Question, string Answer)
{
    /// <summary>The grid that lessons work on: 16 x 16 cells, 16 layers.</summary>
    public static Grid Grid { get; } = new(16, 16, 16);

    /// <summary>Its stars, 1 to 3.</summary>
    public int Level => Difficulty.Level;

    /// <summary>What two exercises of one lesson may not share, such as the verbs in their order.</summary>
    public abstract string Pattern { get; }

    /// <summary>Whether an empty grid to draw in stands beside the question.</summary>
    public virtual bool HasGrid => false;

    /// <summary>What is wrong with a typed answer; null where it is right.</summary>
    public abstract string? Wrong(string typed);

    /// <summary>The records that it is about, as they should be.</summary>
    internal abstract IReadOnlyList<Record> Records { get; }

    internal static RecordWidth Width => RecordWidth.Four;

    internal static string Hex(Record record)
    {
        var bytes = new byte[Width.Bytes];
        RecordCodec.Write(Width, record, bytes);
        return string.Join(' ', bytes.Select(octet => $"{octet:X2}"));
    }

    internal static string Verbs(IEnumerable<Record> records) => string.Join(' ', records.Select(Name));

    internal static string Name(Record record) =>
        record is { Verb: Verb.Wait, Heading: 1 } ? "hold" : record.Verb.ToString().ToLowerInvariant();

    internal static string[] Words(string typed) => typed.Split((char[])[' ', '\t', '\r'], StringSplitOptions.RemoveEmptyEntries);
}

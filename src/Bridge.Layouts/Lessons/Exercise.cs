using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>One exercise on 4-bit records: a question, its answer, and how a typed answer is marked.</summary>
/// <param name="Level">How hard it is, 1 to 3.</param>
/// <param name="Question">What is asked, line by line, each of up to 90 letters.</param>
/// <param name="Answer">The answer as it may be typed.</param>
public abstract record Exercise(int Level, IReadOnlyList<string> Question, string Answer)
{
    /// <summary>The grid that lessons work on: 16 x 16 cells, 16 layers.</summary>
    public static Grid Grid { get; } = new(16, 16, 16);

    /// <summary>Whether an empty grid to draw in stands beside the question.</summary>
    public virtual bool HasGrid => false;

    /// <summary>What is wrong with a typed answer; null where it is right.</summary>
    public abstract string? Wrong(string typed);

    internal static RecordWidth Width => RecordWidth.Four;

    internal static string Hex(Record record)
    {
        var bytes = new byte[Width.Bytes];
        RecordCodec.Write(Width, record, bytes);
        return string.Join(' ', bytes.Select(octet => $"{octet:X2}"));
    }

    internal static string[] Words(string typed) => typed.Split((char[])[' ', '\t', '\r'], StringSplitOptions.RemoveEmptyEntries);
}

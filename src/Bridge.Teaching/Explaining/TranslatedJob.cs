using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>A job whose records are not Bridge's own, with what they do said in Bridge's.</summary>
public sealed record TranslatedJob
{
    /// <summary>How many records it has, 1 and up.</summary>
    public required int Count { get; init; }

    /// <summary>Bytes of a record.</summary>
    public required int RecordBytes { get; init; }

    /// <summary>The record at an index from 0; asked only for those that are explained.</summary>
    public required Func<int, TranslatedRecord> RecordAt { get; init; }

    /// <summary>How the bits of a record are read, in a line.</summary>
    public required string Reading { get; init; }

    /// <summary>What is executed, record by record, in Bridge's records, and an end.</summary>
    public required Image Image { get; init; }

    /// <summary>For each of those but the end, the record that it comes from.</summary>
    public required IReadOnlyList<int> Origins { get; init; }

    /// <summary>The grid.</summary>
    public required Grid Grid { get; init; }

    /// <summary>What stops the job before its end; null where nothing does.</summary>
    public JobFault? Fault { get; init; }
}

/// <summary>One such record.</summary>
/// <param name="Bytes">Its bytes.</param>
/// <param name="Fields">Its fields.</param>
/// <param name="Meaning">What it means, in words.</param>
/// <param name="Acts">Whether it does something by itself, as no repeat and no end does.</param>
public sealed record TranslatedRecord(ReadOnlyMemory<byte> Bytes, IReadOnlyList<RecordField> Fields, string Meaning, bool Acts);

using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>One record of a job with what it does there.</summary>
public sealed record ExplainedRecord
{
    /// <summary>Its place in the image, from 0.</summary>
    public required int Index { get; init; }

    /// <summary>Whether it does something by itself, as no `again` and no `end` does.</summary>
    public required bool Acts { get; init; }

    /// <summary>Its bytes.</summary>
    public required ReadOnlyMemory<byte> Bytes { get; init; }

    /// <summary>Its fields.</summary>
    public required IReadOnlyList<RecordField> Fields { get; init; }

    /// <summary>What it means, in words.</summary>
    public required string Meaning { get; init; }

    /// <summary>How often it is executed, repeats counted; 0 where the job never comes to it, and for `again` and `end`.</summary>
    public long Times { get; init; }

    /// <summary>Where the job stands before its first execution; null where there is none.</summary>
    public Position? From { get; init; }

    /// <summary>Where its first execution leaves the job; null where there is none.</summary>
    public Position? To { get; init; }

    /// <summary>Cells worked in all its executions.</summary>
    public long Cells { get; init; }

    /// <summary>Cells that the job has worked when its first execution begins; null where there is none.</summary>
    public long? CellsBefore { get; init; }

    /// <summary>When its first execution begins, in seconds of the job; null where no machine is known, or there is none.</summary>
    public double? BeginsAt { get; init; }

    /// <summary>How long all its executions take, in seconds; null where no machine is known.</summary>
    public double? Seconds { get; init; }
}

namespace Bridge.Runs;

/// <summary>How far a job has been executed, each `again` unrolled.</summary>
/// <param name="Records">Whole records executed: the index of the record that comes next.</param>
/// <param name="Cells">Cells of that record that were worked.</param>
public readonly record struct JobPlace(long Records, long Cells) : IComparable<JobPlace>
{
    /// <summary>The job's beginning.</summary>
    public static JobPlace Beginning => default;

    /// <inheritdoc/>
    public int CompareTo(JobPlace other) => (Records, Cells).CompareTo((other.Records, other.Cells));

    /// <summary>Whether one place comes before another.</summary>
    public static bool operator <(JobPlace left, JobPlace right) => left.CompareTo(right) < 0;

    /// <summary>Whether one place comes after another.</summary>
    public static bool operator >(JobPlace left, JobPlace right) => left.CompareTo(right) > 0;

    /// <summary>Whether one place comes before another or is the same.</summary>
    public static bool operator <=(JobPlace left, JobPlace right) => left.CompareTo(right) <= 0;

    /// <summary>Whether one place comes after another or is the same.</summary>
    public static bool operator >=(JobPlace left, JobPlace right) => left.CompareTo(right) >= 0;
}

using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>How far a job has been executed, each `again` unrolled.</summary>
/// <param name="Records">Whole records executed: the index of the record that comes next.</param>
/// <param name="Cells">Cells of that record that were worked.</param>
public readonly record struct JobPlace(long Records, long Cells) : IComparable<JobPlace>
{
    /// <summary>The job's beginning.</summary>
    public static JobPlace Beginning => default;

    /// <summary>The same, a record whose cells are all worked counted as executed: nothing is left of it but that the device had not said so.</summary>
    public JobPlace Whole(Image image, Grid grid)
    {
        if (Cells == 0)
            return this;
        var passes = new PassReader(image, grid);
        Pass pass = default;
        for (var record = 0L; record <= Records; record++)
            if (!passes.TryNext(out pass))
                return this;
        return Cells < pass.Work.Cells ? this : new JobPlace(Records + 1, 0);
    }

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

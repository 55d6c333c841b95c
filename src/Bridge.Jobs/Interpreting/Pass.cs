namespace Bridge.Jobs;

/// <summary>One execution of one record: rise, head change and idle move take it from Before to Entry, then it works.</summary>
/// <param name="Index">The record in the image, from 0.</param>
/// <param name="Record">The record itself; never an `again`, which shows as further passes of the records it repeats.</param>
/// <param name="Before">Where the job stood.</param>
/// <param name="Entry">Where the work starts.</param>
/// <param name="Work">The cells it works.</param>
public readonly record struct Pass(int Index, Record Record, Position Before, Position Entry, CellPath Work)
{
    /// <summary>Where it leaves the job.</summary>
    public Position After => Entry with { Cell = Work.Last };
}

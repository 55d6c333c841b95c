using Bridge.Runs;

namespace Simulation.Tests;

/// <summary>From where a run was chosen to go on, and what was in doubt then.</summary>
/// <param name="From">The place of the job.</param>
/// <param name="Doubt">What was named as in doubt; null where nothing was.</param>
/// <param name="Decision">What was decided of it.</param>
internal sealed record Settlement(JobPlace From, Doubt? Doubt, InDoubt Decision)
{
    /// <summary>From the job's beginning.</summary>
    public static Settlement OfBeginning { get; } = new(JobPlace.Beginning, null, default);

    /// <inheritdoc/>
    public override string ToString() => Doubt is null
        ? $"nothing in doubt at {From}"
        : $"{Decision} of {Doubt.Cells.Count} cells and {Doubt.RecordsAfter} records after them, from {From}";

    /// <summary>Whether it is this that the journal tells of the doubt.</summary>
    public bool IsTold(SettledDoubt? told) => Doubt is null || told is null
        ? Doubt is null && told is null
        : told.Decision == Decision && told.RecordsAfter == Doubt.RecordsAfter && told.Cells == Doubt.Cells.Count
            && (told.Cells == 0 || (told.First == Doubt.Cells.First && told.Last == Doubt.Cells.Last));
}

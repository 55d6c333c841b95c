using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>How a person wants a shape planned.</summary>
internal sealed record PlanWishes
{
    /// <summary>Whether head b supports what would fall; else it is refused.</summary>
    public bool AddSupport { get; init; } = true;

    /// <summary>Whether cells may be worked twice on a machine that allows it.</summary>
    public bool MayOverprint { get; init; } = true;

    /// <summary>How long to look for a better plan; null for about a second.</summary>
    public int? Seconds { get; init; }

    /// <summary>How far the shape may be changed so that its job fits; null for not at all.</summary>
    public FitWishes? Fit { get; init; }
}

/// <summary>A job that was planned and proved.</summary>
/// <param name="File">The job.</param>
/// <param name="Worked">The shape that it works, with what support and changes it got.</param>
internal sealed record PlannedJob(JobFile File, Shape Worked);

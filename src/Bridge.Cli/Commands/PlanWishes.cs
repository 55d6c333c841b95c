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
}

namespace Bridge.Jobs;

/// <summary>Thrown by every reader of files when it refuses what it was given. Nothing has been changed or moved by then.</summary>
public sealed class RefusedException : Exception
{
    /// <summary>Refuses for one reason.</summary>
    public RefusedException(string place, string found, string allowed, string action)
        : this([new Refusal(place, found, allowed, action)])
    {
    }

    /// <summary>Refuses for the given reasons, at least one.</summary>
    public RefusedException(IReadOnlyList<Refusal> refusals)
        : base(string.Join(Environment.NewLine, refusals)) => Refusals = refusals;

    /// <summary>The reasons, in the order of their places; at least one.</summary>
    public IReadOnlyList<Refusal> Refusals { get; }
}

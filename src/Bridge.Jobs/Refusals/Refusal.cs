namespace Bridge.Jobs;

/// <summary>One thing that is wrong with what a person gave: where, what was found, what is allowed, what to do.</summary>
/// <param name="Place">Where it is: a file and line, a key, a record and its byte offset.</param>
/// <param name="Found">What stands there.</param>
/// <param name="Allowed">What may stand there, with its range and unit.</param>
/// <param name="Action">What the person can do about it.</param>
public sealed record Refusal(string Place, string Found, string Allowed, string Action)
{
    /// <summary>The most cells that are named beside the words.</summary>
    public const int MostCells = 1000;

    /// <summary>The cells that it is about, where it is about cells, at most 1000 of them; for pictures, the words say it all.</summary>
    public IReadOnlyList<(int Layer, Cell Cell)> Cells { get; init; } = [];

    /// <summary>The whole in one line.</summary>
    public override string ToString() => $"{Place}: found {Found}; allowed: {Allowed}. {Action}";
}

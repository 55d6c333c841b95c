using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>What one head works on one layer, or an empty layer to be passed.</summary>
/// <param name="Layer">The layer.</param>
/// <param name="StartsLayer">Whether it is the first of its layer.</param>
/// <param name="Head">The head.</param>
/// <param name="Kind">The same number for parts of the same head with the same cells; -1 for an empty layer.</param>
/// <param name="Blocks">The blocks to work; none on an empty layer.</param>
internal sealed record Part(int Layer, bool StartsLayer, Head Head, int Kind, IReadOnlyList<Block> Blocks)
{
    /// <summary>The kind of an empty layer.</summary>
    public const int Empty = -1;

    /// <summary>Records it takes where its layer has still to be reached.</summary>
    public int Records => Math.Max(1, Blocks.Count);

    /// <summary>Whether it is done by the same records as another.</summary>
    public bool IsLike(Part other) => Kind == other.Kind && StartsLayer == other.StartsLayer;
}

/// <summary>Parts that are written once and done one or more times.</summary>
/// <param name="First">The first part.</param>
/// <param name="Count">How many parts are written.</param>
/// <param name="Times">How often they are done, 1 and up.</param>
/// <param name="EndsRisen">Whether a last record goes up to the layer that follows, so that the first need not.</param>
internal readonly record struct Stretch(int First, int Count, int Times, bool EndsRisen)
{
    /// <summary>The first part after all repeats.</summary>
    public int End => First + Count * Times;
}

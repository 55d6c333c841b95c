using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>What is wanted: for each layer, which cells are worked by which head. Never changes; one byte for a cell of a layer that works.</summary>
public sealed class Shape
{
    /// <summary>Most cells along an axis, and most layers: 4096.</summary>
    public const int MaxSide = 4096;

    /// <summary>The grid of the longest sides that a shape may have.</summary>
    public static Grid LargestGrid { get; } = new(MaxSide, MaxSide, MaxSide);

    /// <summary>Most cells of the whole volume, empty ones too: 100 million.</summary>
    public const long MaxCells = 100_000_000;

    internal const byte Empty = 0;

    private readonly byte[]?[] _layers;

    internal Shape(int width, int depth, byte[]?[] layers)
    {
        Width = width;
        Depth = depth;
        _layers = layers;
    }

    /// <summary>Cells along X, 1 to 4096.</summary>
    public int Width { get; }

    /// <summary>Cells along Y, 1 to 4096.</summary>
    public int Depth { get; }

    /// <summary>Layers, 1 to 4096, the lowest first.</summary>
    public int Layers => _layers.Length;

    /// <summary>The head that works a cell; null where none does, which is so everywhere outside.</summary>
    public Head? this[int x, int y, int layer] =>
        (uint)x < (uint)Width && (uint)y < (uint)Depth && (uint)layer < (uint)Layers && _layers[layer] is { } cells
            ? HeadOf(cells[y * Width + x])
            : null;

    /// <summary>How many cells a head works on a layer; 0 on layers outside.</summary>
    public int Count(int layer, Head head) => LayerCells(layer).Count(Mark(head));

    /// <summary>How many cells a head works on all layers.</summary>
    public long Count(Head head) => Enumerable.Range(0, Layers).Sum(layer => (long)Count(layer, head));

    /// <summary>Whether no cell of a layer is worked.</summary>
    public bool IsEmpty(int layer) => !LayerCells(layer).ContainsAnyExcept(Empty);

    /// <summary>Whether no cell at all is worked.</summary>
    public bool IsEmptyEverywhere => Enumerable.Range(0, Layers).All(IsEmpty);

    /// <summary>The lowest layers of it, 1 to all of them.</summary>
    public Shape Lowest(int layers) => new(Width, Depth, _layers[..layers]);

    internal static byte Mark(Head head) => (byte)(1 + (int)head);

    internal static Head? HeadOf(byte mark) => mark == Empty ? null : (Head)(mark - 1);

    // Row by row from y = 0; no cells at all where nothing was ever worked.
    internal ReadOnlySpan<byte> LayerCells(int layer) => (uint)layer < (uint)Layers ? _layers[layer] : default;
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>A shape turned into a job for one machine.</summary>
/// <param name="Records">The job, its end included unless the store is full without it.</param>
/// <param name="Width">The size of its records.</param>
/// <param name="StoreBytes">The byte budget of the machine it was planned for.</param>
/// <param name="Layers">What each layer costs, the lowest first, up to the highest that works.</param>
public sealed record Plan(IReadOnlyList<Record> Records, RecordWidth Width, int StoreBytes, IReadOnlyList<LayerCost> Layers)
{
    /// <summary>Bytes of the image.</summary>
    public long ImageBytes => (long)Records.Count * Width.Bytes;

    /// <summary>Whether the image fits the machine's store. A longer job can still be streamed.</summary>
    public bool Fits => ImageBytes <= StoreBytes;

    /// <summary>By how many records at most the layers are above their fewest; 0 where every layer is proved.</summary>
    public int Gap => Layers.Sum(layer => Math.Max(0, layer.Records - layer.AtLeast));
}

/// <summary>What one layer of a plan costs.</summary>
/// <param name="Layer">The layer, 0 the lowest.</param>
/// <param name="Records">Records that it takes; those that it shares with a lower layer count for that one.</param>
/// <param name="Bytes">Bytes of those records.</param>
/// <param name="CellsA">Cells that head a works on it.</param>
/// <param name="CellsB">Cells that head b works on it.</param>
/// <param name="Rectangles">The fewest rectangles that its cells can be cut into, head by head.</param>
/// <param name="AtLeast">Records that the layer takes at least where it is not done by records of another one.</param>
public readonly record struct LayerCost(int Layer, int Records, long Bytes, int CellsA, int CellsB, int Rectangles, int AtLeast);

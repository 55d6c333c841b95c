using System.Buffers.Binary;
using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Planning;

namespace Bridge.Panel;

/// <summary>A job that was planned, or read from a job file, with all that a page shows of it.</summary>
public sealed record JobAtHand
{
    /// <summary>What people call it: the shape's or the job's name.</summary>
    public required string Name { get; init; }

    /// <summary>The job.</summary>
    public required JobFile File { get; init; }

    /// <summary>What was found when it was held against the machine.</summary>
    public required JobProof Proof { get; init; }

    /// <summary>How long it takes.</summary>
    public required Timetable Times { get; init; }

    /// <summary>Where each layer stands in the job's working order.</summary>
    public required IReadOnlyList<WorkedLayer> Layers { get; init; }

    /// <summary>The plan that it comes from; null for one that was read from a job file.</summary>
    public Plan? Plan { get; init; }

    /// <summary>What was said while it was made.</summary>
    public IReadOnlyList<string> Told { get; init; } = [];

    /// <summary>What would help, where it does not fit the store.</summary>
    public IReadOnlyList<string> Advice { get; init; } = [];

    /// <summary>The job file.</summary>
    public required byte[] Bytes { get; init; }

    /// <summary>A name for just these bytes, for pages that ask whether they have the same.</summary>
    public required string Id { get; init; }
}

/// <summary>A layer in the order in which a job works.</summary>
/// <param name="Layer">The layer, from 0.</param>
/// <param name="FirstCell">How many cells are worked before it.</param>
/// <param name="CellsA">Cells worked on it by head a, each as often as it is worked.</param>
/// <param name="CellsB">Those of head b.</param>
public readonly record struct WorkedLayer(int Layer, long FirstCell, long CellsA, long CellsB)
{
    /// <summary>Cells of both heads.</summary>
    public long Cells => CellsA + CellsB;

    /// <summary>The layers that a job works on, the lowest first: a job only ever goes up.</summary>
    public static IReadOnlyList<WorkedLayer> Of(Image image, Grid grid)
    {
        var layers = new List<WorkedLayer>();
        var passes = new PassReader(image, grid);
        var cells = 0L;
        while (passes.TryNext(out var pass))
        {
            var (layer, head, count) = (pass.Entry.Layer, pass.Entry.Head, pass.Work.Cells);
            if (count == 0)
                continue;
            if (layers.Count == 0 || layers[^1].Layer != layer)
                layers.Add(new WorkedLayer(layer, cells, 0, 0));
            var last = layers[^1];
            layers[^1] = head == Head.A ? last with { CellsA = last.CellsA + count } : last with { CellsB = last.CellsB + count };
            cells += count;
        }

        return layers;
    }

    /// <summary>
    /// The cells worked on a layer in working order, four octets each, little-endian: x in 16 bits, then y in 15 bits and the head in the top bit.
    /// </summary>
    public static byte[] CellsOf(Image image, Grid grid, in WorkedLayer wanted)
    {
        var octets = new byte[checked(4 * wanted.Cells)];
        var passes = new PassReader(image, grid);
        var at = 0;
        while (at < octets.Length && passes.TryNext(out var pass))
        {
            if (pass.Entry.Layer != wanted.Layer)
                continue;
            foreach (var cell in pass.Work)
            {
                BinaryPrimitives.WriteUInt16LittleEndian(octets.AsSpan(at), (ushort)cell.X);
                BinaryPrimitives.WriteUInt16LittleEndian(octets.AsSpan(at + 2), (ushort)(cell.Y | (pass.Entry.Head == Head.B ? 0x8000 : 0)));
                at += 4;
            }
        }

        return octets;
    }
}

using System.Collections.Concurrent;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>A shape taken apart: what each head works on each layer, cut into blocks. What is the same is cut once.</summary>
internal sealed class ShapeParts
{
    private readonly List<(int Layer, Head Head, int Kind)> _works = [];
    private readonly List<Mask> _masks = []; // by kind
    private readonly Dictionary<Mask, int> _kinds = new(Mask.SameCells);
    private readonly Cutting[] _cuttings;

    /// <summary>Takes the layers of a shape up to the highest that works apart, for so many steps of work unless that is ended early.</summary>
    public ShapeParts(Shape shape, bool mayOverprint, long steps, long mostStepsOfMask, CancellationToken ended)
    {
        LayerCount = 1 + Enumerable.Range(0, shape.Layers).Last(layer => !shape.IsEmpty(layer));
        for (var layer = 0; layer < LayerCount; layer++)
            foreach (var head in new[] { Head.A, Head.B })
                if (Mask.Of(shape, layer, head) is { } mask)
                    _works.Add((layer, head, KindOf(mask)));
        var cells = _masks.Sum(mask => (long)mask.CellCount);
        _cuttings = new Cutting[_masks.Count];
        Parallel.ForEach(Partitioner.Create(0, _masks.Count, 1), range =>
        {
            for (var kind = range.Item1; kind < range.Item2; kind++)
            {
                var stepsOfMask = Math.Min(mostStepsOfMask, (long)((double)steps * _masks[kind].CellCount / cells));
                _cuttings[kind] = Cutting.Of(_masks[kind], mayOverprint, stepsOfMask, ended);
            }
        });
    }

    /// <summary>Layers up to the highest that works.</summary>
    public int LayerCount { get; }

    /// <summary>The parts in the order of the layers, those of head a first.</summary>
    public List<Part> InOrder()
    {
        List<Part> parts = [];
        var works = _works.ToLookup(work => work.Layer);
        for (var layer = 0; layer < LayerCount; layer++)
        {
            var isFirst = true;
            foreach (var (_, head, kind) in works[layer])
            {
                parts.Add(new Part(layer, isFirst, head, 2 * kind + (int)head, _cuttings[kind].Blocks));
                isFirst = false;
            }
            if (isFirst)
                parts.Add(new Part(layer, true, Head.A, Part.Empty, []));
        }
        return parts;
    }

    /// <summary>The fewest rectangles of a layer, and a number of blocks that no cutting of it goes below.</summary>
    public (int Rectangles, int AtLeast) Bounds(int layer)
    {
        var cuttings = _works.Where(work => work.Layer == layer).Select(work => _cuttings[work.Kind]).ToList();
        return (cuttings.Sum(cutting => cutting.Rectangles), cuttings.Sum(cutting => cutting.AtLeast));
    }

    private int KindOf(Mask mask)
    {
        if (_kinds.TryGetValue(mask, out var kind))
            return kind;
        _kinds.Add(mask, _masks.Count);
        _masks.Add(mask);
        return _masks.Count - 1;
    }
}

namespace Bridge.Planning;

/// <summary>Cells of a shape that are put in, left out or given to the other head together.</summary>
/// <param name="Words">What it is.</param>
/// <param name="Cells">The cells, and what they become.</param>
internal sealed record Edit(string Words, IReadOnlyList<CellEdit> Cells)
{
    /// <summary>What turns one shape into another of the same size.</summary>
    public static Edit Between(string words, Shape from, Shape to)
    {
        List<CellEdit> cells = [];
        for (var layer = 0; layer < from.Layers; layer++)
            AddDifferences(from.LayerCells(layer), to.LayerCells(layer), layer, cells);
        return new Edit(words, cells);
    }

    /// <summary>Adds the cells in which two layers differ; no marks at all are an empty layer.</summary>
    public static void AddDifferences(ReadOnlySpan<byte> from, ReadOnlySpan<byte> to, int layer, List<CellEdit> cells)
    {
        for (var place = 0; place < Math.Max(from.Length, to.Length); place++)
            if ((to.IsEmpty ? Shape.Empty : to[place]) is var mark && mark != (from.IsEmpty ? Shape.Empty : from[place]))
                cells.Add(new CellEdit(place, layer, mark));
    }

    /// <summary>A shape with edits made, one after the other.</summary>
    public static Shape Made(Shape shape, IEnumerable<Edit> edits)
    {
        var layers = Enumerable.Range(0, shape.Layers).Select(layer => shape.LayerCells(layer) is { IsEmpty: false } cells ? cells.ToArray() : null).ToArray();
        foreach (var (place, layer, mark) in edits.SelectMany(edit => edit.Cells))
            (layers[layer] ??= new byte[shape.Width * shape.Depth])[place] = mark;
        return new Shape(shape.Width, shape.Depth, layers);
    }
}

/// <summary>One cell and what it becomes.</summary>
/// <param name="Place">Where it is on its layer, row by row.</param>
/// <param name="Layer">Its layer.</param>
/// <param name="Mark">The mark of its new head, or empty.</param>
internal readonly record struct CellEdit(int Place, int Layer, byte Mark);

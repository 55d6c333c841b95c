using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Puts support under a shape, from the highest layer down: what is put on a layer must be held by the next one itself.</summary>
/// <param name="shape">The shape.</param>
/// <param name="air">Where support may be.</param>
/// <param name="overhang">How far a cell may stick out over the layer below.</param>
/// <param name="narrows">Whether support sticks out itself and takes fewer cells further down; else it goes straight down, its layers alike.</param>
internal sealed class SupportColumns(Shape shape, OpenAir air, int overhang, bool narrows)
{
    /// <summary>The shape with its support.</summary>
    /// <exception cref="RefusedException">Cells in a closed hollow need support.</exception>
    public Shape Build()
    {
        var built = new ShapeBuilder(shape.Width, shape.Depth, shape.Layers);
        var support = new CellSet(shape.Width, shape.Depth);
        for (var layer = shape.Layers - 1; layer >= 0; layer--)
        {
            var own = CellSet.Of(shape, layer);
            foreach (var cell in own.Cells())
                built.Work(cell, layer, shape[cell.X, cell.Y, layer]!.Value);
            foreach (var cell in support.Cells())
                built.Work(cell, layer, Head.B);
            if (layer > 0)
                support = Below(layer, Falling(own.With(support), CellSet.Of(shape, layer - 1)));
        }
        return built.Build();
    }

    private CellSet Falling(CellSet present, CellSet below)
    {
        var falling = new CellSet(shape.Width, shape.Depth);
        foreach (var cell in Overhang.Falling(present.ToLayerCells(), below.ToLayerCells(), overhang))
            falling[cell.X, cell.Y] = true;
        return falling;
    }

    private CellSet Below(int layer, CellSet due)
    {
        if (due.Count == 0)
            return due;
        var cover = new SupportCover(due, air.Of(layer - 1));
        if (!narrows)
            cover.Put(reach: 0);
        cover.Put(overhang);
        if (cover.Left is { Count: > 0 } left)
            throw new RefusedException($"layer {layer}, cell {left.First}", "a cell over a closed hollow",
                "support that can be taken out", "Open the hollow to the outside, or put B cells of your own under it, which stay inside.");
        return cover.Fewest();
    }
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Solid shapes made hollow and hollow ones solid. What can be seen from outside stays as it is.</summary>
public static class Hollows
{
    /// <summary>
    /// Without the inner cells of head a: those with worked cells all around within the wall, corners and layers above and below included. The hollow has
    /// a vault that holds itself and needs no support: it gets narrower upwards by one cell a layer. Without overhang there is none, and the shape stays solid.
    /// </summary>
    /// <param name="shape">The shape.</param>
    /// <param name="wall">Cells that stay between the hollow and the outside, 1 and up.</param>
    /// <param name="overhang">How far a cell may stick out over the layer below, 0 or 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wall is below 1, or the overhang is neither 0 nor 1.</exception>
    public static Shape Hollowed(this Shape shape, int wall, int overhang)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(wall, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan((uint)overhang, 1u, nameof(overhang));
        if (overhang == 0)
            return shape;
        var deep = Enumerable.Range(0, shape.Layers).Select(layer => CellSet.Of(shape, layer).Shrunk(wall)).ToArray();
        var hollow = new ShapeBuilder(shape.Width, shape.Depth, shape.Layers);
        var taken = new CellSet(shape.Width, shape.Depth);
        for (var layer = shape.Layers - 1; layer >= 0; layer--)
        {
            taken = Vault.Below(Inner(shape, deep, layer, wall), taken);
            foreach (var cell in CellSet.Of(shape, layer).Without(taken).Cells())
                hollow.Work(cell, layer, shape[cell.X, cell.Y, layer]!.Value);
        }
        return hollow.Build();
    }

    /// <summary>With every closed hollow worked by head a.</summary>
    public static Shape Filled(this Shape shape)
    {
        var air = new OpenAir(shape);
        var filled = new ShapeBuilder(shape.Width, shape.Depth, shape.Layers);
        for (var layer = 0; layer < shape.Layers; layer++)
        {
            var open = air.Of(layer);
            for (var y = 0; y < shape.Depth; y++)
                for (var x = 0; x < shape.Width; x++)
                    if (!open[x, y])
                        filled.Work(new Cell(x, y), layer, shape[x, y, layer] ?? Head.A);
        }
        return filled.Build();
    }

    private static CellSet Inner(Shape shape, CellSet[] deep, int layer, int wall)
    {
        var inner = new CellSet(shape.Width, shape.Depth);
        if (layer < wall || layer + wall >= shape.Layers)
            return inner;
        foreach (var cell in deep[layer].Cells())
            inner[cell.X, cell.Y] = shape[cell.X, cell.Y, layer] == Head.A
                && Enumerable.Range(layer - wall, 2 * wall + 1).All(near => deep[near][cell.X, cell.Y]);
        return inner;
    }
}

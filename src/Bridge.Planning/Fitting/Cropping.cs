namespace Bridge.Planning;

/// <summary>Shapes moved to the corner of the table.</summary>
public static class Cropping
{
    /// <summary>Without the empty margins around its worked cells, empty layers below and above included; a shape that works nothing stays as it is.</summary>
    public static Shape Cropped(this Shape shape)
    {
        if (shape.IsEmptyEverywhere)
            return shape;
        int left = shape.Width, right = -1, near = shape.Depth, far = -1, lowest = shape.Layers, highest = -1;
        for (var layer = 0; layer < shape.Layers; layer++)
            foreach (var cell in CellSet.Of(shape, layer).Cells())
            {
                (left, right) = (Math.Min(left, cell.X), Math.Max(right, cell.X));
                (near, far) = (Math.Min(near, cell.Y), Math.Max(far, cell.Y));
                (lowest, highest) = (Math.Min(lowest, layer), Math.Max(highest, layer));
            }
        var cropped = new ShapeBuilder(right - left + 1, far - near + 1, highest - lowest + 1);
        for (var layer = lowest; layer <= highest; layer++)
            for (var y = near; y <= far && !shape.IsEmpty(layer); y++)
                cropped.CopyRow(y - near, layer - lowest, shape.LayerCells(layer).Slice(y * shape.Width + left, right - left + 1));
        return cropped.Build();
    }
}

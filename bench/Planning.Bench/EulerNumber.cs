using Bridge.Planning;

namespace Planning.Bench;

/// <summary>The Euler number of a shape taken as closed cubes: corners less edges plus faces less cubes. A solid without holes and hollows has 1.</summary>
internal static class EulerNumber
{
    /// <summary>Of all layers.</summary>
    public static long Of(Shape shape)
    {
        var number = 0L;
        for (var layer = 0; layer <= shape.Layers; layer++)
            for (var y = 0; y <= shape.Depth; y++)
                for (var x = 0; x <= shape.Width; x++)
                    for (var reach = 0; reach < 8; reach++)
                        if (Touches(shape, x, y, layer, reach))
                            number += (reach & 1) + (reach >> 1 & 1) + (reach >> 2) is 1 or 3 ? -1 : 1;
        return number;
    }

    // Whether a corner, edge, face or cube that begins at a corner and reaches a cell along some axes belongs to a worked cell: along the others
    // the cell may lie on either side.
    private static bool Touches(Shape shape, int x, int y, int layer, int reach)
    {
        for (var side = 0; side < 8; side++)
            if ((side & reach) == 0 && shape[x - (side & 1), y - (side >> 1 & 1), layer - (side >> 2)] is not null)
                return true;
        return false;
    }
}

namespace Bridge.Jobs;

/// <summary>One place on a layer of the machine's grid, in cells from (0, 0).</summary>
/// <param name="X">Cells along X, 0 and up.</param>
/// <param name="Y">Cells along Y, 0 and up.</param>
public readonly record struct Cell(int X, int Y)
{
    /// <summary>The cell as people write it: (x, y).</summary>
    public override string ToString() => $"({X}, {Y})";
}

namespace Bridge.Jobs;

/// <summary>The cells that a machine can reach.</summary>
/// <param name="X">Cells along X, 1 to 4096.</param>
/// <param name="Y">Cells along Y, 1 to 4096.</param>
/// <param name="Layers">Layers, 1 to 4096.</param>
public readonly record struct Grid(int X, int Y, int Layers)
{
    /// <summary>The most layers that a machine may have.</summary>
    public const int MostLayers = 4096;

    /// <summary>Whether a cell lies on each layer of the grid.</summary>
    public bool Holds(Cell cell) => (uint)cell.X < (uint)X && (uint)cell.Y < (uint)Y;

    /// <summary>The grid as people write it.</summary>
    public override string ToString() => $"{X} x {Y} x {Layers}";
}

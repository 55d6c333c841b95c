namespace Bridge.Planning;

/// <summary>What lines and areas are wanted on a page, later ones over earlier ones. Units of its own; y goes down.</summary>
internal sealed class Drawing(double width, double height, IReadOnlyList<Painted> parts) : IDisposable
{
    /// <summary>The width of the page in units, above 0.</summary>
    public double Width => width;

    /// <summary>The height of the page in units, above 0.</summary>
    public double Height => height;

    /// <summary>The mm of a unit; null where the drawing does not say how large it is.</summary>
    public double? UnitMm { get; init; }

    /// <summary>Whether points are places of cells, as letters have it, and the page reaches half a cell further on each side.</summary>
    public bool IsOfCellCentres { get; init; }

    /// <summary>The height of a capital in units, where it is text.</summary>
    public double? Capital { get; init; }

    /// <summary>Its parts, the lowest first.</summary>
    public IReadOnlyList<Painted> Parts => parts;

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var part in parts)
            part.Path.Dispose();
    }
}

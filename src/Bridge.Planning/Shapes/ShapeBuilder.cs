using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Makes a shape cell by cell, layers growing as they are worked. Sizes out of bounds are refused before memory is spent.</summary>
public sealed class ShapeBuilder
{
    private readonly string _name;
    private List<byte[]?> _layers = [];

    /// <summary>Starts an empty shape of some cells along X and Y, each 1 to 4096, and some layers, 0 to 4096.</summary>
    /// <param name="width">Cells along X.</param>
    /// <param name="depth">Cells along Y.</param>
    /// <param name="layers">Layers it has even if nothing is worked on them.</param>
    /// <param name="name">What a refusal calls it.</param>
    /// <exception cref="RefusedException">A side or the whole volume is out of bounds.</exception>
    public ShapeBuilder(int width, int depth, int layers = 0, string name = "the shape")
    {
        _name = name;
        Width = width;
        Depth = depth;
        CheckSide("width", width, 1);
        CheckSide("depth", depth, 1);
        EnsureLayers(layers);
    }

    /// <summary>Cells along X.</summary>
    public int Width { get; }

    /// <summary>Cells along Y.</summary>
    public int Depth { get; }

    /// <summary>Layers it has so far.</summary>
    public int Layers => _layers.Count;

    /// <summary>Gives it at least so many layers, empty ones on top where it had fewer.</summary>
    /// <exception cref="RefusedException">The layers or the whole volume are out of bounds.</exception>
    public void EnsureLayers(int layers)
    {
        if (layers <= Layers)
            return;
        CheckSide("layers", layers, 0);
        CheckVolume(layers);
        while (Layers < layers)
            _layers.Add(null);
    }

    /// <summary>Has a head work a cell, on a new layer if need be; false if the cell was worked already, and the last head counts.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The cell is outside the width or depth, or the layer is negative.</exception>
    /// <exception cref="RefusedException">The layers or the whole volume are out of bounds.</exception>
    public bool Work(Cell cell, int layer, Head head)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(layer);
        if ((uint)cell.X >= (uint)Width || (uint)cell.Y >= (uint)Depth)
            throw new ArgumentOutOfRangeException(nameof(cell), cell, $"The shape is {Width} x {Depth} cells.");
        ref var mark = ref Cells(layer)[cell.Y * Width + cell.X];
        var isFirst = mark == Shape.Empty;
        mark = Shape.Mark(head);
        return isFirst;
    }

    /// <summary>Hands the shape over, of one layer at least; the builder has no layers afterwards.</summary>
    public Shape Build()
    {
        EnsureLayers(1);
        var layers = _layers.ToArray();
        _layers = [];
        return new Shape(Width, Depth, layers);
    }

    internal void CopyRow(int y, int layer, ReadOnlySpan<byte> marks)
    {
        if (marks.ContainsAnyExcept(Shape.Empty))
            marks.CopyTo(Cells(layer).AsSpan(y * Width, Width));
    }

    private byte[] Cells(int layer)
    {
        EnsureLayers(layer + 1);
        return _layers[layer] ??= new byte[Width * Depth];
    }

    private void CheckSide(string what, int size, int least)
    {
        if (size < least || size > Shape.MaxSide)
            throw new RefusedException(_name, $"{what} {size}", $"{least} to {Shape.MaxSide}",
                "Give a smaller shape or cut it into parts.");
    }

    private void CheckVolume(int layers)
    {
        var cells = (long)Width * Depth * layers;
        if (cells > Shape.MaxCells)
            throw new RefusedException(_name, $"{Width} x {Depth} x {layers} = {cells} cells",
                $"at most {Shape.MaxCells} cells", "Give a smaller shape or cut it into parts.");
    }
}

using System.Collections;

namespace Bridge.Planning;

/// <summary>The empty cells of a shape that can be reached from outside through sides of empty cells: not those of a closed hollow.</summary>
internal sealed class OpenAir
{
    private readonly Shape _shape;
    private readonly BitArray[] _isOpen; // by layer
    private readonly Stack<Run> _waiting = [];

    /// <summary>Finds them, coming from every side of the box around the shape, from below too: what is made is lifted off its table.</summary>
    public OpenAir(Shape shape)
    {
        _shape = shape;
        _isOpen = [.. Enumerable.Range(0, shape.Layers).Select(_ => new BitArray(shape.Width * shape.Depth))];
        for (var layer = 0; layer < shape.Layers; layer++)
            for (var y = 0; y < shape.Depth; y++)
                for (var x = 0; x < shape.Width; x += IsOutside(y, layer) ? 1 : Math.Max(1, shape.Width - 1))
                    Open(x, y, layer);
        while (_waiting.TryPop(out var run))
            foreach (var (dy, dz) in new[] { (1, 0), (-1, 0), (0, 1), (0, -1) })
                for (var x = run.First; x <= run.Last; x++)
                    Open(x, run.Y + dy, run.Layer + dz);
    }

    /// <summary>The cells of a layer that are open.</summary>
    public CellSet Of(int layer)
    {
        var open = new CellSet(_shape.Width, _shape.Depth);
        for (var place = 0; place < _isOpen[layer].Length; place++)
            if (_isOpen[layer][place])
                open[place % _shape.Width, place / _shape.Width] = true;
        return open;
    }

    private bool IsOutside(int y, int layer) => y == 0 || y == _shape.Depth - 1 || layer == 0 || layer == _shape.Layers - 1;

    // Opens the whole run of empty cells along X that a cell is in.
    private void Open(int x, int y, int layer)
    {
        if (!IsNew(x, y, layer))
            return;
        int first = x, last = x;
        while (IsNew(first - 1, y, layer))
            first--;
        while (IsNew(last + 1, y, layer))
            last++;
        for (var at = first; at <= last; at++)
            _isOpen[layer][y * _shape.Width + at] = true;
        _waiting.Push(new Run(first, last, y, layer));
    }

    private bool IsNew(int x, int y, int layer) =>
        (uint)x < (uint)_shape.Width && (uint)y < (uint)_shape.Depth && (uint)layer < (uint)_shape.Layers
        && !_isOpen[layer][y * _shape.Width + x] && _shape[x, y, layer] is null;

    private readonly record struct Run(int First, int Last, int Y, int Layer);
}

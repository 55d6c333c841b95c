using System.Text;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Gathers lines of cells into layers, the lowest layer first and its far edge first, and holds them to one size.</summary>
internal sealed class LayerStack(string name, Grid limit)
{
    /// <summary>What a layer is separated from the next one by.</summary>
    public static ReadOnlySpan<byte> Separator => "---"u8;

    private readonly List<byte[]> _rows = [];
    private ShapeBuilder? _shape;
    private int _layer;
    private int _width;
    private int _widthLine;
    private int _depthLayer;

    /// <summary>Adds a line of cells to the present layer.</summary>
    /// <exception cref="RefusedException">It is not as wide as the others, or the layer gets too deep.</exception>
    public void Add(ReadOnlySpan<byte> marks, int line)
    {
        if (_widthLine == 0)
            (_width, _widthLine) = (marks.Length, line);
        if (marks.Length == 0)
            throw Refused(line, 1, "a line of no cells", "lines of 1 cell or more",
                "Take the line out, or write a dot for each empty cell.");
        if (marks.Length != _width)
            throw Refused(line, Math.Min(marks.Length, _width) + 1, $"a line of {marks.Length} cells",
                $"{_width} cells, as line {_widthLine} has", "Make all lines equally long.");
        if (_rows.Count == limit.Y)
            throw Refused(line, 1, $"line {limit.Y + 1} of layer {_layer}", $"at most {limit.Y} lines in a layer",
                "Make the shape smaller or take a larger machine.");
        _rows.Add(marks.ToArray());
    }

    /// <summary>Ends the present layer at the separator of the next one.</summary>
    /// <exception cref="RefusedException">It is not as deep as the others, or there are too many.</exception>
    public void EndLayer(int line)
    {
        Keep(line);
        if (++_layer == limit.Layers)
            throw Refused(line, 1, $"layer {_layer}, counted from 0", $"at most {limit.Layers} layers",
                "Make the shape lower or take a larger machine.");
    }

    /// <summary>Ends the last layer and hands over the shape.</summary>
    /// <exception cref="RefusedException">The last layer is not as deep as the others, or no line of cells has come at all.</exception>
    public Shape Finish(int lastLine)
    {
        Keep(lastLine + 1);
        if (_shape is null)
            throw new RefusedException(name, "no line of cells", "one line or more", "Write a layer of dots, A and B.");
        _shape.EnsureLayers(_layer + 1);
        return _shape.Build();
    }

    /// <summary>The mark that a character stands for.</summary>
    public static bool TryMark(byte character, out byte mark)
    {
        mark = character switch
        {
            (byte)'A' or (byte)'a' => Shape.Mark(Head.A),
            (byte)'B' or (byte)'b' => Shape.Mark(Head.B),
            _ => Shape.Empty,
        };
        return mark != Shape.Empty || character is (byte)'.' or (byte)' ';
    }

    /// <summary>Refuses a character; the bytes begin with it.</summary>
    public RefusedException Unknown(ReadOnlySpan<byte> at, int line, int column)
    {
        var isText = Rune.DecodeFromUtf8(at, out var character, out _) == System.Buffers.OperationStatus.Done;
        var found = !isText ? $"byte {at[0]:X2}" : Rune.IsControl(character) ? $"character U+{character.Value:X4}" : $"'{character}'";
        return Refused(line, column, found, "A, B, a dot or a space", "Put one of these in its place.");
    }

    /// <summary>Refuses a line that is wider than the limit.</summary>
    public RefusedException TooWide(int line, int column) =>
        Refused(line, column, $"more than {limit.X} cells", $"at most {limit.X} cells in a line",
            "Make the shape smaller or take a larger machine.");

    /// <summary>Refuses something at a place in the file.</summary>
    public RefusedException Refused(int line, int column, string found, string allowed, string action) =>
        new($"{name}, line {line}, column {column}", found, allowed, action);

    private void Keep(int endLine)
    {
        if (_rows.Count == 0)
            return;
        if (_shape is null)
            (_shape, _depthLayer) = (new ShapeBuilder(_width, _rows.Count, name: name), _layer);
        if (_rows.Count != _shape.Depth)
            throw Refused(endLine, 1, $"layer {_layer} ending after {_rows.Count} lines",
                $"{_shape.Depth} lines, as layer {_depthLayer} from line {_widthLine} has", "Make all layers equally deep.");
        _shape.EnsureLayers(_layer + 1);
        for (var row = 0; row < _rows.Count; row++)
            _shape.CopyRow(_shape.Depth - 1 - row, _layer, _rows[row]);
        _rows.Clear();
    }
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>
/// Puts single cells and short runs in or leaves them out, where that saves the most records for a cell. No piece of a layer is taken apart or joined to
/// another by it, and layers that are alike are changed alike. Records are counted as rectangles without regard to chords: a quarter for each convex
/// corner, three for a concave one, two where cells touch by corners (what the theorem of the fewest rectangles gives where no two corners face each other).
/// </summary>
internal sealed class Smoothing
{
    private const int LongestRun = 4;
    private const int MostRounds = 64;
    private static readonly int[] Weights = [.. Enumerable.Range(0, 16).Select(WeightOf)]; // by the cells of a point, as Corners.At has them

    private readonly Shape _shape;
    private readonly bool _canFall;
    private readonly int _overhang;
    private readonly byte[][] _layers;
    private readonly List<int>[] _kinds; // layers that are alike
    private readonly Effort _effort;

    private Smoothing(Shape shape, Machine machine, Effort effort)
    {
        (_shape, _canFall, _overhang, _effort) = (shape, !machine.MayOverprint, machine.OverhangCells, effort);
        _layers = [.. Enumerable.Range(0, shape.Layers)
            .Select(layer => shape.LayerCells(layer) is { IsEmpty: false } cells ? cells.ToArray() : new byte[shape.Width * shape.Depth])];
        _kinds = [.. Enumerable.Range(0, shape.Layers).Where(layer => !shape.IsEmpty(layer))
            .GroupBy(layer => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(_layers[layer]))).Select(kind => kind.ToList())];
    }

    /// <summary>Edits, those that save most for a cell first, each with the records that it saves by count.</summary>
    /// <param name="shape">The shape.</param>
    /// <param name="machine">The machine: on one that deposits, no edit makes a cell fall.</param>
    /// <param name="mostCells">Cells that all edits together may change.</param>
    /// <param name="effort">How much work may be done.</param>
    public static List<(Edit Edit, int Saved)> Edits(Shape shape, Machine machine, long mostCells, Effort effort)
    {
        var smoothing = new Smoothing(shape, machine, effort);
        List<(Edit Edit, int Saved)> edits = [];
        for (var round = 0; round < MostRounds && mostCells > 0 && effort.IsLeft; round++)
        {
            var before = edits.Count;
            foreach (var edit in smoothing.Round(mostCells))
            {
                edits.Add(edit);
                mostCells -= edit.Edit.Cells.Count;
            }
            if (edits.Count == before)
                break;
        }
        return edits;
    }

    // The best edits of the present cells that do not touch one another.
    private IEnumerable<(Edit Edit, int Saved)> Round(long mostCells)
    {
        var runs = Enumerable.Range(0, _kinds.Length).SelectMany(RunsOf).ToList();
        var touched = Enumerable.Range(0, _kinds.Length).Select(_ => new HashSet<int>()).ToArray();
        foreach (var run in runs.OrderByDescending(run => (double)run.Saved / run.Cost).ThenBy(run => run.Cost))
        {
            if (run.Cost > mostCells || run.Places(_shape.Width).Any(touched[run.Kind].Contains) || !KeepsPieces(run) || !Holds(run))
                continue;
            mostCells -= run.Cost;
            foreach (var place in run.Places(_shape.Width))
                for (var y = -2; y <= 2; y++)
                    for (var x = -2; x <= 2; x++)
                        touched[run.Kind].Add(place + y * _shape.Width + x);
            List<CellEdit> cells = [.. from layer in _kinds[run.Kind] from place in run.Places(_shape.Width) select new CellEdit(place, layer, run.Mark)];
            foreach (var (place, layer, mark) in cells)
                _layers[layer][place] = mark;
            yield return (new Edit("smoothed", cells), run.Saved);
        }
    }

    // The runs of one kind of layer that save a record at least.
    private IEnumerable<Run> RunsOf(int kind)
    {
        var layer = _layers[_kinds[kind][0]];
        for (var y = 0; y < _shape.Depth && _effort.IsLeft; y++)
        {
            _effort.Spend(400L * _shape.Width);
            for (var x = 0; x < _shape.Width; x++)
                for (var way = 0; way < 2; way++)
                    for (var cells = 1; cells <= LongestRun && EndOf(x, y, way, cells) is var (lastX, lastY) && lastX < _shape.Width && lastY < _shape.Depth
                        && MarkAt(layer, lastX, lastY) == MarkAt(layer, x, y); cells++)
                        if ((cells > 1 || way == 0) && NewMark(layer, x, y, way, cells) is { } mark
                            && Saved(layer, x, y, lastX, lastY, mark) is > 0 and var saved)
                            yield return new Run(kind, x, y, way, cells, mark, saved, cells * _kinds[kind].Count);
        }
    }

    private static (int X, int Y) EndOf(int x, int y, int way, int cells) => way == 0 ? (x + cells - 1, y) : (x, y + cells - 1);

    private byte MarkAt(byte[] layer, int x, int y) =>
        (uint)x < (uint)_shape.Width && (uint)y < (uint)_shape.Depth ? layer[y * _shape.Width + x] : Shape.Empty;

    // Worked cells become empty; empty ones are worked by the head of a neighbour at an end, if there is one.
    private byte? NewMark(byte[] layer, int x, int y, int way, int cells)
    {
        if (MarkAt(layer, x, y) != Shape.Empty)
            return Shape.Empty;
        var (lastX, lastY) = EndOf(x, y, way, cells);
        foreach (var (nearX, nearY) in new[] { (x - 1, y), (lastX + 1, lastY), (x, y - 1), (lastX, lastY + 1) })
            if (MarkAt(layer, nearX, nearY) is not Shape.Empty and var mark)
                return mark;
        return null;
    }

    private int Saved(byte[] layer, int x, int y, int lastX, int lastY, byte mark)
    {
        var counted = mark == Shape.Empty ? MarkAt(layer, x, y) : mark;
        var before = Weight(layer, x, y, lastX, lastY, counted);
        Set(layer, x, y, lastX, lastY, mark, out var old);
        var after = Weight(layer, x, y, lastX, lastY, counted);
        Set(layer, x, y, lastX, lastY, old, out _);
        return (before - after) / 4;
    }

    private void Set(byte[] layer, int x, int y, int lastX, int lastY, byte mark, out byte old)
    {
        old = MarkAt(layer, x, y);
        for (var row = y; row <= lastY; row++)
            layer.AsSpan(row * _shape.Width + x, lastX - x + 1).Fill(mark);
    }

    private int Weight(byte[] layer, int x, int y, int lastX, int lastY, byte mark)
    {
        var weight = 0;
        for (var row = y; row <= lastY + 1; row++)
            for (var column = x; column <= lastX + 1; column++)
                weight += Weights[(MarkAt(layer, column - 1, row - 1) == mark ? 1 : 0) | (MarkAt(layer, column, row - 1) == mark ? 2 : 0)
                    | (MarkAt(layer, column - 1, row) == mark ? 4 : 0) | (MarkAt(layer, column, row) == mark ? 8 : 0)];
        return weight;
    }

    private static int WeightOf(int cells) => int.PopCount(cells) switch
    {
        1 => 1,
        2 when cells is 0b1001 or 0b0110 => 2,
        3 => 3,
        _ => 0,
    };

    // Whether the worked cells around a run hang together without it, by sides or corners: it then neither joins pieces nor takes one apart.
    private bool KeepsPieces(Run run)
    {
        var (lastX, lastY) = EndOf(run.X, run.Y, run.Way, run.Cells);
        var layer = _layers[_kinds[run.Kind][0]];
        List<Cell> around = [.. from y in Enumerable.Range(run.Y - 1, lastY - run.Y + 3)
                                from x in Enumerable.Range(run.X - 1, lastX - run.X + 3)
                                where (x < run.X || x > lastX || y < run.Y || y > lastY) && MarkAt(layer, x, y) != Shape.Empty
                                select new Cell(x, y)];
        var piece = around.Take(1).ToList();
        for (var next = 0; next < piece.Count; next++)
            piece.AddRange(around.Where(cell => Math.Abs(cell.X - piece[next].X) <= 1 && Math.Abs(cell.Y - piece[next].Y) <= 1).Except(piece).ToList());
        return piece.Count == around.Count;
    }

    // Whether a run that is put in is held, and one that is left out holds nothing that has nothing else. Layers of its kind change with it.
    private bool Holds(Run run)
    {
        var (kind, places) = (_kinds[run.Kind], run.Places(_shape.Width).ToList());
        return !_canFall || kind.TrueForAll(layer => run.Mark == Shape.Empty
            ? layer + 1 == _layers.Length || places.SelectMany(Near).Where(place => _layers[layer + 1][place] != Shape.Empty)
                .Where(place => !kind.Contains(layer + 1) || !places.Contains(place)).All(place => HasNear(layer, place, places))
            : layer == 0 || kind.Contains(layer - 1) || places.TrueForAll(place => HasNear(layer - 1, place, without: [])));
    }

    private bool HasNear(int layer, int place, List<int> without) =>
        Near(place).Any(near => _layers[layer][near] != Shape.Empty && !without.Contains(near));

    private IEnumerable<int> Near(int place)
    {
        int x = place % _shape.Width, y = place / _shape.Width;
        for (var nearY = Math.Max(0, y - _overhang); nearY <= Math.Min(_shape.Depth - 1, y + _overhang); nearY++)
            for (var nearX = Math.Max(0, x - _overhang); nearX <= Math.Min(_shape.Width - 1, x + _overhang); nearX++)
                yield return nearY * _shape.Width + nearX;
    }

    private readonly record struct Run(int Kind, int X, int Y, int Way, int Cells, byte Mark, int Saved, int Cost)
    {
        public IEnumerable<int> Places(int width)
        {
            for (var cell = 0; cell < Cells; cell++)
                yield return (Way == 0 ? Y : Y + cell) * width + (Way == 0 ? X + cell : X);
        }
    }
}

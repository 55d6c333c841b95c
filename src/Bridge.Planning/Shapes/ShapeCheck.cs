using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Holds what a job works against what was wanted.</summary>
public static class ShapeCheck
{
    /// <summary>How many differing cells are named; the others are only counted.</summary>
    public const int MaxNamed = 20;

    /// <summary>Every cell in which the worked shape differs from the wanted one; their sizes may differ.</summary>
    public static ShapeDifference Compare(Shape wanted, Shape worked)
    {
        long missing = 0, extra = 0, wrongHead = 0;
        List<CellDifference> first = [];
        for (var layer = 0; layer < Math.Max(wanted.Layers, worked.Layers); layer++)
        {
            if (AreSame(wanted, worked, layer))
                continue;
            for (var y = 0; y < Math.Max(wanted.Depth, worked.Depth); y++)
                for (var x = 0; x < Math.Max(wanted.Width, worked.Width); x++)
                    Note(new CellDifference(new Cell(x, y), layer, wanted[x, y, layer], worked[x, y, layer]));
        }
        return new ShapeDifference(missing, extra, wrongHead, first);

        void Note(CellDifference cell)
        {
            if (cell.Wanted == cell.Worked)
                return;
            if (cell.Worked is null)
                missing++;
            else if (cell.Wanted is null)
                extra++;
            else
                wrongHead++;
            if (first.Count < MaxNamed)
                first.Add(cell);
        }
    }

    /// <summary>Whether two shapes are the same on a layer.</summary>
    public static bool AreSame(Shape a, Shape b, int layer) =>
        (a.IsEmpty(layer) && b.IsEmpty(layer)) || (a.Width == b.Width && a.LayerCells(layer).SequenceEqual(b.LayerCells(layer)));
}

/// <summary>One cell that is not worked as wanted.</summary>
/// <param name="Cell">Where it is on its layer.</param>
/// <param name="Layer">Its layer, 0 the lowest.</param>
/// <param name="Wanted">The head wanted there; null where none is.</param>
/// <param name="Worked">The head that worked there; null where none did.</param>
public readonly record struct CellDifference(Cell Cell, int Layer, Head? Wanted, Head? Worked)
{
    /// <summary>The difference in plain words.</summary>
    public override string ToString() => $"layer {Layer}, cell {Cell}: wanted {Word(Wanted)}, worked {Word(Worked)}";

    private static string Word(Head? head) => head switch { Head.A => "head a", Head.B => "head b", _ => "empty" };
}

/// <summary>How the cells that were worked differ from those wanted.</summary>
/// <param name="Missing">Cells wanted and not worked.</param>
/// <param name="Extra">Cells worked and not wanted.</param>
/// <param name="WrongHead">Cells worked by the other head.</param>
/// <param name="First">The first of them, at most 20, by layer, then y, then x.</param>
public sealed record ShapeDifference(long Missing, long Extra, long WrongHead, IReadOnlyList<CellDifference> First)
{
    /// <summary>Whether every cell was worked as wanted.</summary>
    public bool IsNone => Missing + Extra + WrongHead == 0;
}

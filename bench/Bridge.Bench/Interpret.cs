using Bridge.Jobs;

namespace Bridge.Bench;

/// <summary>How fast a job of whole-grid patches is gone through, cell by cell.</summary>
internal static class Interpret
{
    private const int Repetitions = 9;
    private const int CellsWanted = 1 << 24; // in each repetition: one patch of 4096 x 4096

    public static IEnumerable<Figure> Measure() => [OfWidth(RecordWidth.Eight), OfWidth(RecordWidth.Twelve)];

    private static Figure OfWidth(RecordWidth width)
    {
        var grid = new Grid(width.Places, width.Places, 1);
        var patch = Record.Patch(Head.A, new Cell(0, 0), width.Places, width.Places, default);
        var times = CellsWanted / (width.Places * width.Places);
        var image = Image.Of(width, times == 1 ? [patch, Record.End] : [patch, Record.Again(width, records: 1, times - 1), Record.End]);
        GoThrough(image, grid);
        return new Figure($"interpret {width.AxisBits}-bit axes", "million cells/s", Goal.AtLeast(20),
            [.. Enumerable.Range(0, Repetitions).Select(_ => CellsWanted / Figure.Seconds(() => GoThrough(image, grid)) / 1e6)]);
    }

    private static void GoThrough(Image image, Grid grid)
    {
        var interpreter = new Interpreter(image, grid);
        var (cells, sum) = (0L, 0L);
        while (interpreter.MoveNext())
        {
            cells++;
            sum += interpreter.Current.Cell.X;
        }

        if (interpreter.Fault is not null || cells != CellsWanted || sum != cells * (grid.X - 1L) / 2)
            throw new InvalidOperationException($"{cells} cells, sum {sum}, {interpreter.Fault}: that is not the job.");
    }
}

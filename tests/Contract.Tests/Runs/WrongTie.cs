using Bridge.Jobs;

namespace Contract.Tests;

/// <summary>An interpreter of lines with a planted defect: on a tie, discriminant 0, it takes the straight step.</summary>
internal static class WrongTie
{
    /// <summary>The cells of a job whose lines may be drawn with the defect or without.</summary>
    public static IReadOnlyList<Position> CellsOf(Machine machine, Record[] records, bool isWrong)
    {
        var passes = new PassReader(Image.Of(machine.Width, records), machine.Grid);
        var cells = new List<Position>();
        while (passes.TryNext(out var pass))
            if (pass.Record.Verb == Verb.Line)
                cells.AddRange(Line(pass.Before.Cell, pass.Record.At, isWrong).Select(cell => pass.Entry with { Cell = cell }));
            else
                foreach (var cell in pass.Work)
                    cells.Add(pass.Entry with { Cell = cell });
        return cells;
    }

    // Bresenham, IBM Systems Journal 4(1), 1965.
    private static IEnumerable<Cell> Line(Cell from, Cell to, bool isWrong)
    {
        var (dx, dy) = (Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y));
        var (major, minor) = (Math.Max(dx, dy), Math.Min(dx, dy));
        var discriminant = 2 * minor - major;
        for (var (step, x, y) = (0, from.X, from.Y); step < major; step++)
        {
            var isDiagonal = isWrong ? discriminant > 0 : discriminant >= 0;
            discriminant += 2 * minor - (isDiagonal ? 2 * major : 0);
            x += dx >= dy || isDiagonal ? Math.Sign(to.X - from.X) : 0;
            y += dx < dy || isDiagonal ? Math.Sign(to.Y - from.Y) : 0;
            yield return new Cell(x, y);
        }
    }
}

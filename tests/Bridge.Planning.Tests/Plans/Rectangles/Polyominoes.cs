namespace Bridge.Planning.Tests;

// Every free polyomino of a size: shapes of cells joined by sides, turned and mirrored ones counted once.
internal static class Polyominoes
{
    public static List<List<(int X, int Y)>> OfSize(int cells)
    {
        var shapes = new Dictionary<string, List<(int X, int Y)>> { ["0,0"] = [(0, 0)] };
        for (var size = 2; size <= cells; size++)
        {
            var larger = new Dictionary<string, List<(int X, int Y)>>();
            foreach (var shape in shapes.Values)
                foreach (var grown in shape.SelectMany(Neighbours).Except(shape).Select(cell => shape.Append(cell).ToList()))
                    larger.TryAdd(Name(grown), grown);
            shapes = larger;
        }
        return [.. shapes.Values];
    }

    private static IEnumerable<(int X, int Y)> Neighbours((int X, int Y) cell) =>
        [(cell.X + 1, cell.Y), (cell.X - 1, cell.Y), (cell.X, cell.Y + 1), (cell.X, cell.Y - 1)];

    // The least of the names of its eight views.
    private static string Name(List<(int X, int Y)> cells) => Views(cells).Min(StringComparer.Ordinal)!;

    private static IEnumerable<string> Views(List<(int X, int Y)> cells)
    {
        for (var turn = 0; turn < 4; turn++)
        {
            cells = cells.ConvertAll(cell => (-cell.Y, cell.X));
            yield return Placed(cells);
            yield return Placed(cells.ConvertAll(cell => (-cell.X, cell.Y)));
        }
    }

    private static string Placed(List<(int X, int Y)> cells)
    {
        var (left, bottom) = (cells.Min(cell => cell.X), cells.Min(cell => cell.Y));
        return string.Join(' ', cells.Select(cell => (X: cell.X - left, Y: cell.Y - bottom)).Order().Select(cell => $"{cell.X},{cell.Y}"));
    }
}

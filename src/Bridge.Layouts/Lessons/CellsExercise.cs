using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Which cells does this record work?</summary>
internal sealed record CellsExercise : Exercise
{
    private readonly HashSet<Cell> _cells;

    public CellsExercise(int level, Record record)
        : this(level, record, CellsOf(record))
    {
    }

    private CellsExercise(int level, Record record, List<Cell> cells)
        : base(level,
            [
                $"Which cells does this record work: {Hex(record)}",
                "Mark them in the grid, and write them in any order, as in: 3,4 3,5 4,5",
            ],
            string.Join(' ', cells.Select(cell => $"{cell.X},{cell.Y}"))) => _cells = [.. cells];

    public override bool HasGrid => true;

    public override string? Wrong(string typed)
    {
        var cells = new HashSet<Cell>();
        foreach (var word in Words(typed))
        {
            if (word.Split(',') is not [var x, var y] || !int.TryParse(x, NumberStyles.None, CultureInfo.InvariantCulture, out var column)
                || !int.TryParse(y, NumberStyles.None, CultureInfo.InvariantCulture, out var row))
                return $"\"{MachineFileText.Clean(word)}\" is no cell: write x,y";
            cells.Add(new Cell(column, row));
        }
        var (missing, extra) = (_cells.Except(cells).Count(), cells.Except(_cells).ToList());
        return missing + extra.Count == 0 ? null
            : $"{missing} of {_cells.Count} cells missing, {extra.Count} too many{(extra.Count > 0 ? $", such as {extra[0].X},{extra[0].Y}" : "")}";
    }

    private static List<Cell> CellsOf(Record record)
    {
        var cells = new List<Cell>();
        foreach (var cell in PassReader.PassOf(Width, 0, record, default).Work)
            cells.Add(cell);
        return cells;
    }
}

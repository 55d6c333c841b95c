using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Which cells do these records work?</summary>
internal sealed record CellsExercise : Exercise
{
    private readonly IReadOnlyList<Record> _records;
    private readonly HashSet<Cell> _cells;

    /// <param name="records">The records, on one layer, done from (0, 0).</param>
    public CellsExercise(IReadOnlyList<Record> records)
        : this(records, new LessonJob(records))
    {
    }

    private CellsExercise(IReadOnlyList<Record> records, LessonJob job)
        : base(
            Difficulty.Of(
                (records.Count - 1, "further records"),
                (records.Count(record => record.Verb == Verb.Patch), "patch"),
                (records.Sum(RecordDifficulty.Direction), "falling or diagonal"),
                (job.Slopes, "slope of a line"),
                (RecordDifficulty.Size(job.Worked.Count), $"{job.Worked.Count} cells")),
            [
                records.Count == 1 ? $"Which cells does this record work: {Hex(records[0])}"
                    : $"Which cells do these records work, one after the other: {string.Join("   ", records.Select(Hex))}",
                "Mark them in the grid, and write them in any order, as in: 3,4 3,5 4,5",
            ],
            string.Join(' ', job.Worked.Select(work => $"{work.Cell.X},{work.Cell.Y}").Distinct())) =>
        (_records, _cells) = (records, [.. job.Worked.Select(work => work.Cell)]);

    public override bool HasGrid => true;

    public override string Pattern => $"cells {Verbs(_records)}";

    internal override IReadOnlyList<Record> Records => _records;

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
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>The cells that a job works, as a shape.</summary>
public static class WorkedShape
{
    /// <summary>All cells up to the job's end or to what stops it, on the whole grid.</summary>
    public static Shape Of(Image image, Grid grid) => Of(image, grid, grid.X, grid.Y);

    private static Shape Of(Image image, Grid grid, int width, int depth)
    {
        var shape = new ShapeBuilder(width, depth, name: "what the job works");
        var interpreter = new Interpreter(image, grid);
        while (interpreter.MoveNext())
            shape.Work(interpreter.Current.Cell, interpreter.Current.Layer, interpreter.Current.Head);
        return shape.Build();
    }

    /// <summary>How a job's cells differ from a shape, as faults: none where they are the same.</summary>
    public static IReadOnlyList<JobFault> Differences(Image image, Grid grid, Shape wanted)
    {
        var (width, depth) = Extent(image, grid);
        var difference = ShapeCheck.Compare(wanted, Of(image, grid, width, depth));
        var faults = difference.First.Select(cell => new JobFault(RuleOf(cell), -1, new Refusal(
            $"layer {cell.Layer}, cell {cell.Cell}", Words(cell.Worked), $"{Words(cell.Wanted)}, as the shape says", "Plan the shape again.")
        {
            Cells = [(cell.Layer, cell.Cell)],
        })).ToList();
        var more = difference.Missing + difference.Extra + difference.WrongHead - faults.Count;
        if (more > 0)
            faults.Add(new JobFault(JobRule.CellMissing, -1, new Refusal("shape", $"{more} more cells that differ "
                + $"(in all {difference.Missing} missing, {difference.Extra} too many, {difference.WrongHead} by the other head)",
                "none", "Plan the shape again.")));
        return faults;
    }

    /// <summary>The same from a shape as it is, or else with the support that a plan adds: then also how many cells of support that is.</summary>
    public static (IReadOnlyList<JobFault> Faults, long SupportCells) DifferencesFromHeld(Image image, Machine machine, Shape wanted)
    {
        var bare = Differences(image, machine.Grid, wanted);
        return bare.Count > 0 && Supported(wanted, machine) is { } held && Differences(image, machine.Grid, held) is { Count: 0 } none
            ? (none, held.Count(Head.B) - wanted.Count(Head.B))
            : (bare, 0);
    }

    private static Shape? Supported(Shape shape, Machine machine)
    {
        try
        {
            return Support.Under(shape, machine);
        }
        catch (RefusedException)
        {
            return null; // what cannot be supported is held against the job as it is
        }
    }

    // A large machine's grid has more cells than a shape may have; a small job on it needs no more than its own.
    private static (int Width, int Depth) Extent(Image image, Grid grid)
    {
        var (width, depth) = (1, 1);
        var interpreter = new Interpreter(image, grid);
        while (interpreter.MoveNext())
            (width, depth) = (Math.Max(width, interpreter.Current.Cell.X + 1), Math.Max(depth, interpreter.Current.Cell.Y + 1));
        return (width, depth);
    }

    private static JobRule RuleOf(CellDifference cell) =>
        cell.Worked is null ? JobRule.CellMissing : cell.Wanted is null ? JobRule.CellExtra : JobRule.WrongHead;

    private static string Words(Head? head) => head is { } named ? $"worked by head {RecordWords.Name(named)}" : "not worked";
}

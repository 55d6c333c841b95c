using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Jobs to be shortened, by chance: each made from its short form, said in more records.</summary>
internal sealed class ShortenRecipes(Random random)
{
    private static readonly RecordWidth Width = Exercise.Width;

    /// <summary>A maker for each way of being too long.</summary>
    public IReadOnlyList<Func<ShortenRecipe>> All =>
    [
        Rows,
        Columns,
        () => SingleCells("cells", 2 * random.Next(2)),
        Parts,
        Waits,
        Layers,
        () => SingleCells("stairs", 1 + 2 * random.Next(4)),
        Heap,
        () => TwoPatches(layers: 1),
        RestOnLayers,
        Corner,
        Slope,
        () => TwoPatches(layers: random.Next(2, 4)),
        StairsOnLayers,
    ];

    private ShortenRecipe Rows()
    {
        var patch = Patch();
        return new("rows", [.. RowsOf(patch)], [patch]);
    }

    private ShortenRecipe Columns()
    {
        var patch = Patch() with { Heading = (int)PatchWay.AlongY };
        var columns = Enumerable.Range(0, patch.P + 1).Select(column => Record.Row(Width, patch.Head, patch.At with { X = patch.X + column }, 2, patch.Q + 1));
        return new("columns", [.. columns], [patch]);
    }

    private ShortenRecipe SingleCells(string name, int heading)
    {
        var row = RowAlong(heading, random.Next(4, 8));
        return new(name, [.. CellsOf(row)], [row]);
    }

    // A row in parts, one behind the other.
    private ShortenRecipe Parts()
    {
        var parts = Enumerable.Range(0, random.Next(3, 5)).Select(_ => random.Next(2, 4)).ToList();
        var row = RowAlong(2 * random.Next(2), parts.Sum());
        var starts = parts.Select((_, index) => parts.Take(index).Sum());
        return new("parts", [.. parts.Zip(starts, (cells, start) => Record.Row(Width, row.Head, Along(row, start), row.Heading, cells))], [row]);
    }

    private ShortenRecipe Waits()
    {
        var waits = Enumerable.Range(0, random.Next(3, 6)).Select(_ => random.Next(5, 45)).ToList();
        return new("waits", [.. waits.Select(tenths => Record.Wait(Width, tenths))], [Record.Wait(Width, waits.Sum())]);
    }

    private ShortenRecipe Layers()
    {
        var patch = Patch() with { Rise = true };
        return OnLayers("layers", random.Next(4, 9), [patch], [patch]);
    }

    // The cells of a rectangle in no order.
    private ShortenRecipe Heap()
    {
        var patch = Patch() with { P = random.Next(1, 3), Q = random.Next(1, 3) };
        return new("heap", Shuffled(RowsOf(patch).SelectMany(CellsOf)), [patch], IsMixed: true);
    }

    // The rows of two rectangles, one with each head, in no order.
    private ShortenRecipe TwoPatches(int layers)
    {
        var left = Patch() with { X = random.Next(0, 2), P = random.Next(2, 4) };
        var right = Patch() with { X = random.Next(8, 11), Head = left.Head ^ (Head)1 };
        var rows = Shuffled(RowsOf(left).Concat(RowsOf(right)));
        if (layers == 1)
            return new("two patches", rows, [left, right], IsMixed: true);
        rows[0] = rows[0] with { Rise = true };
        return OnLayers("two patches on layers", layers, rows, [left with { Rise = true }, right], isMixed: true);
    }

    private ShortenRecipe RestOnLayers()
    {
        Record[] layer = [RowAlong(random.Next(8), random.Next(3, 7)) with { Rise = true }, Rest()];
        return OnLayers("rest on layers", random.Next(3, 6), layer, layer);
    }

    // An L of single cells.
    private ShortenRecipe Corner()
    {
        var (corner, down, right) = (new Cell(random.Next(8), random.Next(8)), random.Next(3, 6), random.Next(3, 5));
        var head = (Head)random.Next(2);
        var first = Record.Row(Width, head, corner with { Y = corner.Y + down - 1 }, 6, down, rise: true);
        var second = Record.Row(Width, head, corner with { X = corner.X + 1 }, 0, right - 1);
        return OnLayers("corner", random.Next(3, 5), [.. CellsOf(first), .. CellsOf(second)], [first, second]);
    }

    // The cells of a line that is neither along an axis nor a diagonal.
    private ShortenRecipe Slope()
    {
        var (dx, dy) = (random.Next(5, 9), random.Next(2, 4));
        var first = Record.Row(Width, (Head)random.Next(2), new Cell(random.Next(7), random.Next(7)), 0, 1);
        var line = Record.Line(first.Head, new Cell(first.X + dx, first.Y + dy));
        var cells = new LessonJob([first, line]).Worked.Select(work => Record.Row(Width, work.Head, work.Cell, 0, 1));
        return new("slope", [.. cells], [first, line]);
    }

    // A diagonal of single cells, and a rest on each layer.
    private ShortenRecipe StairsOnLayers()
    {
        var (row, rest) = (RowAlong(1 + 2 * random.Next(4), random.Next(4, 6)) with { Rise = true }, Rest());
        return OnLayers("stairs on layers", random.Next(3, 5), [.. CellsOf(row), rest], [row, rest]);
    }

    private static ShortenRecipe OnLayers(string name, int layers, IReadOnlyList<Record> layer, Record[] shorter, bool isMixed = false) =>
        new(name, [.. Enumerable.Repeat(layer, layers).SelectMany(records => records)],
            [.. shorter, Record.Again(Width, shorter.Length, layers - 1)], isMixed);

    // A row's single cells; the first of them goes up where the row does.
    private static IEnumerable<Record> CellsOf(Record row) => Enumerable.Range(0, row.PairPq(Width) + 1)
        .Select(cell => Record.Row(Width, row.Head, Along(row, cell), 0, 1, row.Rise && cell == 0));

    private static IEnumerable<Record> RowsOf(Record patch) => Enumerable.Range(0, patch.Q + 1)
        .Select(row => Record.Row(Width, patch.Head, patch.At with { Y = patch.Y + row }, 0, patch.P + 1));

    private static Cell Along(Record row, int cells) => new(row.X + cells * Heading.Dx(row.Heading), row.Y + cells * Heading.Dy(row.Heading));

    private Record RowAlong(int heading, int cells) => new RandomRecords(random).Row(heading, cells) with { Rise = false };

    // A patch from its lowest corner.
    private Record Patch() => Record.Patch((Head)random.Next(2), new Cell(random.Next(8), random.Next(8)), random.Next(3, 7), random.Next(3, 7),
        PatchWay.AlongX);

    private Record Rest() => random.Next(2) == 0 ? Record.WaitForOperator() : Record.Wait(Width, random.Next(1, 60));

    private List<Record> Shuffled(IEnumerable<Record> records)
    {
        var shuffled = records.ToArray();
        random.Shuffle(shuffled);
        return [.. shuffled];
    }
}

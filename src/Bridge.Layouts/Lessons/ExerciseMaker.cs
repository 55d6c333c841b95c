using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Makes exercises by chance; the same numbers make the same exercises.</summary>
internal sealed class ExerciseMaker(Random random)
{
    private static readonly int Last = Exercise.Grid.X - 1;

    public IEnumerable<Exercise> OfLevel(int level)
    {
        yield return new DecodeExercise(level, level == 1 && random.Next(2) == 0 ? Record.Go(Head(), Cell()) : Work(level));
        yield return new CellsExercise(level, Work(level) with { Rise = false });
        yield return FlippedBit(level);
        yield return level switch { 1 => Rows(), 2 => Layers(), _ => Corner() };
    }

    private Record Work(int level)
    {
        var rise = level == 3 && random.Next(2) == 0;
        return level == 1 || random.Next(2) == 0 ? Row(level, rise) : Patch(level, rise);
    }

    // Along X or Y first, then any way.
    private Record Row(int level, bool rise)
    {
        var heading = level switch { 1 => 4 * random.Next(2), 2 => 2 * random.Next(4), _ => random.Next(8) };
        var (cells, first) = (random.Next(3, 7), Cell());
        var (dx, dy) = (Heading.Dx(heading) * (cells - 1), Heading.Dy(heading) * (cells - 1));
        return Record.Row(Exercise.Width, Head(), new Cell(Math.Clamp(first.X, Math.Max(0, -dx), Last - Math.Max(0, dx)),
            Math.Clamp(first.Y, Math.Max(0, -dy), Last - Math.Max(0, dy))), heading, cells, rise);
    }

    private Record Patch(int level, bool rise)
    {
        var (cellsX, cellsY) = (random.Next(2, 4), random.Next(2, level + 2));
        var way = level == 2 ? PatchWay.AlongX : (PatchWay)random.Next(8);
        var corner = new Cell(random.Next(3, Last - 3), random.Next(4, Last - 4));
        return Record.Patch(Head(), corner, cellsX, cellsY, way, rise);
    }

    // At level 1 a bit of one of the numbers.
    private FlippedBitExercise FlippedBit(int level) => new(level, Work(level), random.Next(level == 1 ? 8 : 0, 24));

    // A rectangle row by row: one patch.
    private ShortenExercise Rows()
    {
        var (corner, head, cellsX, cellsY) = (new Cell(random.Next(8), random.Next(8)), Head(), random.Next(3, 7), random.Next(3, 7));
        var rows = Enumerable.Range(0, cellsY).Select(row => Record.Row(Exercise.Width, head, corner with { Y = corner.Y + row }, 0, cellsX));
        return new ShortenExercise(1, [.. rows], [Record.Patch(head, corner, cellsX, cellsY, PatchWay.AlongX)]);
    }

    // The same on several layers: once, and again.
    private ShortenExercise Layers()
    {
        var patch = Patch(2, rise: true);
        var times = random.Next(4, 9);
        return new ShortenExercise(2, [.. Enumerable.Repeat(patch, times)], [patch, Record.Again(Exercise.Width, 1, times - 1)]);
    }

    // An L of single cells, on several layers: two rows, and again.
    private ShortenExercise Corner()
    {
        var (corner, head, long1, long2, layers) = (new Cell(random.Next(8), random.Next(8)), Head(), random.Next(3, 6), random.Next(3, 5), random.Next(3, 5));
        Record[] shorter =
        [
            Record.Row(Exercise.Width, head, corner with { Y = corner.Y + long2 - 1 }, 6, long2, rise: true),
            Record.Row(Exercise.Width, head, corner with { X = corner.X + 1 }, 0, long1 - 1),
        ];
        var job = new List<Record>();
        for (var layer = 0; layer < layers; layer++)
            foreach (var (record, heading, cells) in new[] { (shorter[0], 6, long2), (shorter[1], 0, long1 - 1) })
                for (var cell = 0; cell < cells; cell++)
                    job.Add(Record.Row(Exercise.Width, head,
                        new Cell(record.X + cell * Heading.Dx(heading), record.Y + cell * Heading.Dy(heading)), 0, 1, rise: record.Rise && cell == 0));
        return new ShortenExercise(3, job, [.. shorter, Record.Again(Exercise.Width, 2, layers - 1)]);
    }

    private Head Head() => (Head)random.Next(2);

    private Cell Cell() => new(random.Next(Last + 1), random.Next(Last + 1));
}

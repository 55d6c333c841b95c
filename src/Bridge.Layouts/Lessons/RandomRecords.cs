using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Records by chance, each within the grid of lessons.</summary>
internal sealed class RandomRecords(Random random)
{
    private static readonly int Last = Exercise.Grid.X - 1;

    /// <summary>A maker for each verb but the end, and for a hold.</summary>
    public IReadOnlyList<Func<Record>> OfEachVerb =>
    [
        Go,
        Row,
        Patch,
        () => Record.Line(Head(), Cell(), Chance()),
        () => Record.Again(Exercise.Width, random.Next(1, 40), random.Next(1, 40)),
        Wait,
        Hold,
    ];

    /// <summary>A record that works from a place of its own.</summary>
    public Record Work() => Chance() ? Row() : Patch();

    /// <summary>A row of 2 to 9 cells.</summary>
    public Record Row() => Row(random.Next(8), random.Next(2, 10));

    /// <summary>A row along a heading.</summary>
    public Record Row(int heading, int cells)
    {
        var (first, dx, dy) = (Cell(), Heading.Dx(heading) * (cells - 1), Heading.Dy(heading) * (cells - 1));
        return Record.Row(Exercise.Width, Head(), new Cell(Math.Clamp(first.X, Math.Max(0, -dx), Last - Math.Max(0, dx)),
            Math.Clamp(first.Y, Math.Max(0, -dy), Last - Math.Max(0, dy))), heading, cells, Chance());
    }

    /// <summary>A patch of 2 to 4 by 2 to 4 cells.</summary>
    public Record Patch() => Record.Patch(Head(), new Cell(random.Next(3, Last - 2), random.Next(3, Last - 2)), random.Next(2, 5), random.Next(2, 5),
        (PatchWay)random.Next(8), Chance());

    /// <summary>A wait, or a hold.</summary>
    public Record Rest() => Chance() ? Hold() : Wait();

    /// <summary>A line to a cell at most 6 places from another, along each axis.</summary>
    public Record LineFrom(Cell from) => Record.Line(Head(), new Cell(Math.Clamp(from.X + random.Next(-6, 7), 0, Last),
        Math.Clamp(from.Y + random.Next(-6, 7), 0, Last)), Chance());

    /// <summary>An idle move.</summary>
    public Record Go() => Record.Go(Head(), Cell(), Chance());

    // Up to 25.5 seconds.
    private Record Wait() => Record.Wait(Exercise.Width, random.Next(1, 256), Chance());

    private Record Hold() => Record.WaitForOperator(Chance());

    private Head Head() => (Head)random.Next(2);

    private Cell Cell() => new(random.Next(Last + 1), random.Next(Last + 1));

    private bool Chance() => random.Next(2) == 0;
}

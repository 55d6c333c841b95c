using Bridge.Jobs;
using Bridge.Motion;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>What planning saves against one row for each run of cells along X, from left to right and line by line.</summary>
internal static class RowByRow
{
    private static readonly (string Shape, string Machine, bool Dither)[] Samples =
    [
        ("lighthouse.txt", "desktop-gantry.toml", false),
        ("thicket.txt", "desktop-gantry.toml", false),
        ("kite.csv", "cardboard-plotter.toml", false),
        ("heron.png", "wide-plotter.toml", false),
        ("heron.png", "wide-plotter.toml", true),
    ];

    /// <summary>Prints the table; true where no plan is longer in bytes or time.</summary>
    public static bool Measure()
    {
        var isShorter = true;
        Table.Print("shape", "rows, bytes", "planned", "ratio", "rows, s", "planned", "ratio");
        foreach (var (name, machineName, dither) in Samples)
        {
            var machine = Examples.Machine(machineName);
            var shape = Examples.Shape(name, machine, dither);
            var (rows, planned) = (Rows(shape, machine.Width), Planner.Plan(shape, machine).Records);
            var (rowBytes, bytes) = (rows.Count * machine.Width.Bytes, planned.Count * machine.Width.Bytes);
            var (rowSeconds, seconds) = (Seconds(rows, machine), Seconds(planned, machine));
            isShorter &= bytes <= rowBytes && seconds <= rowSeconds;
            Table.Print(dither ? "dithered" : Path.GetFileNameWithoutExtension(name), $"{rowBytes}", $"{bytes}", Table.Number((double)bytes / rowBytes),
                Table.Number(rowSeconds), Table.Number(seconds), Table.Number(seconds / rowSeconds));
        }
        return isShorter;
    }

    private static double Seconds(IReadOnlyList<Record> records, Machine machine)
    {
        var times = Timetable.Of(Image.Of(machine.Width, records), machine);
        return times.Fault is { } fault ? throw new InvalidOperationException($"{fault}") : times.Seconds;
    }

    private static List<Record> Rows(Shape shape, RecordWidth width)
    {
        List<Record> records = [];
        var layers = 0; // those reached so far
        for (var layer = 0; layer < shape.Layers && !shape.IsEmptyEverywhere; layer++)
            foreach (var (head, first, cells) in Runs(shape, layer))
            {
                for (; layers < layer - 1; layers++)
                    records.Add(Record.Go(head, first, rise: true));
                records.Add(Record.Row(width, head, first, 0, cells, rise: layers < layer));
                layers = layer;
            }
        return [.. records, Record.End];
    }

    private static IEnumerable<(Head Head, Cell First, int Cells)> Runs(Shape shape, int layer)
    {
        foreach (var head in new[] { Head.A, Head.B })
            for (var y = 0; y < shape.Depth; y++)
                for (int x = 0, end; x < shape.Width; x = end + 1)
                {
                    for (end = x; shape[end, y, layer] == head; end++)
                    {
                    }
                    if (end > x)
                        yield return (head, new Cell(x, y), end - x);
                }
    }
}

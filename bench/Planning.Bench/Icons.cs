using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>All drawings of feather-icons on the wide plotter: how long planning takes, and how far the cells are from Skia's rendering.</summary>
internal static class Icons
{
    private const int Drawings = 287;
    private const double MostSeconds = 15;
    private const double MostCells = 1;
    private const int Pixels = 8; // of a cell's side, for thin strokes
    private const double Effort = 1.0 / 64;

    /// <summary>Prints the table; true where the goals are met.</summary>
    public static bool Measure()
    {
        using var package = new NpmPackage("feather-icons", "4.29.2");
        var files = Directory.GetFiles(package.At("dist", "icons"), "*.svg").Order(StringComparer.Ordinal)
            .Select(path => (Name: Path.GetFileName(path), Bytes: File.ReadAllBytes(path))).ToList();
        var machine = Examples.Machine("wide-plotter.toml");
        Table.Print("strokes", "drawings", "s to plan", "core s", "records", "bytes", "worst", "beyond", "coarse");
        var isMet = files.Count == Drawings;
        foreach (var isWide in new[] { false, true })
            isMet &= Measure(files, machine, isWide);
        return isMet;
    }

    private static bool Measure(List<(string Name, byte[] Bytes)> files, Machine machine, bool isWide)
    {
        var options = new ShapeOptions { Limit = machine.Grid, Wide = isWide }.On(machine);
        var planned = new (Shape Shape, Plan Plan)[files.Count];
        var (start, busy) = (Stopwatch.GetTimestamp(), Process.GetCurrentProcess().TotalProcessorTime);
        Parallel.For(0, files.Count, i =>
        {
            var shape = ShapeFile.Parse(files[i].Bytes, files[i].Name, options);
            planned[i] = (shape, Planner.Plan(shape, machine, Effort));
        });
        var seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        var coreSeconds = (Process.GetCurrentProcess().TotalProcessorTime - busy).TotalSeconds;
        double Far(int i, int pixels) => CellDistance.Between(Worked(planned[i].Plan, machine),
            StrokeRaster.Of(files[i].Bytes, machine.Grid.X, machine.Grid.Y, isWide, pixels));
        var far = files.Select((file, i) => (file.Name, Cells: Far(i, isWide ? 1 : Pixels))).ToList();
        var beyond = far.Where(one => one.Cells > MostCells).ToList();
        var coarse = Enumerable.Range(0, files.Count).Count(i => Far(i, pixels: 1) > MostCells);
        Table.Print(isWide ? "wide" : "one cell", $"{files.Count}", Table.Number(seconds), Table.Number(coreSeconds),
            $"{planned.Sum(one => one.Plan.Records.Count)}", $"{planned.Sum(one => one.Plan.ImageBytes)}",
            Table.Number(far.Max(one => one.Cells)), $"{beyond.Count}", $"{coarse}");
        foreach (var (name, cells) in beyond.OrderByDescending(one => one.Cells).Take(10))
            Console.WriteLine($"  {name}: {Table.Number(cells)} cells");
        return seconds <= MostSeconds && beyond.Count == 0;
    }

    // What the job works, by the interpreter.
    private static bool[,] Worked(Plan plan, Machine machine)
    {
        var cells = new bool[machine.Grid.X, machine.Grid.Y];
        var interpreter = new Interpreter(Image.Of(plan.Width, plan.Records), machine.Grid);
        while (interpreter.MoveNext())
            cells[interpreter.Current.Cell.X, interpreter.Current.Cell.Y] = true;
        return cells;
    }
}

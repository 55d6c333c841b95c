using System.Diagnostics;
using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Bench;

/// <summary>The memory that planning 256 x 256 x 64 cells takes, as the most that a process of its own ever had in use.</summary>
internal static class PlanMemory
{
    public const string ChildName = "plan-memory-child";

    private const int Layers = 64;
    private const int Repetitions = 3;

    public static IEnumerable<Figure> Measure() => [OfShape("ball"), OfShape("herons")];

    /// <summary>Plans a named shape and prints the peak of its own memory, in bytes.</summary>
    public static int Child(string shape)
    {
        var wide = Examples.WidePlotter;
        var machine = wide with { Z = wide.X with { Cells = Layers } };
        var plan = Planner.Plan(shape == "ball" ? Ball() : Herons(), machine);
        using var self = Process.GetCurrentProcess();
        Console.WriteLine(self.PeakWorkingSet64);
        return plan.Layers.Count == Layers ? 0 : 1;
    }

    private static Figure OfShape(string shape) => new($"plan-memory {shape}", "MB", Goal.Below(300),
        [.. Enumerable.Range(0, Repetitions).Select(_ => PeakBytes(shape) / 1e6)]);

    private static double PeakBytes(string shape)
    {
        using var child = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, [ChildName, shape]) { RedirectStandardOutput = true })!;
        var bytes = child.StandardOutput.ReadToEnd();
        child.WaitForExit();
        return child.ExitCode == 0 ? long.Parse(bytes) : throw new InvalidOperationException($"Planning the {shape} failed: {bytes}");
    }

    /// <summary>Half a ball, solid, as wide as the grid.</summary>
    private static Shape Ball()
    {
        var shape = new ShapeBuilder(256, 256, Layers);
        for (var layer = 0; layer < Layers; layer++)
            for (var y = 0; y < 256; y++)
                for (var x = 0; x < 256; x++)
                    if (Square(x - 127.5) + Square(y - 127.5) + Square(2 * layer) <= Square(128))
                        shape.Work(new Cell(x, y), layer, Head.A);
        return shape.Build();
    }

    /// <summary>The dithered heron on every layer: scattered cells, a hard case.</summary>
    private static Shape Herons()
    {
        var heron = Examples.Heron(dither: true);
        var shape = new ShapeBuilder(heron.Width, heron.Depth, Layers);
        for (var layer = 0; layer < Layers; layer++)
            for (var y = 0; y < heron.Depth; y++)
                for (var x = 0; x < heron.Width; x++)
                    if (heron[x, y, 0] is { } head)
                        shape.Work(new Cell(x, y), layer, head);
        return shape.Build();
    }

    private static double Square(double value) => value * value;
}

using Bridge.Jobs;
using Bridge.Layouts;
using Bridge.Planning;

namespace Bridge.Bench;

/// <summary>
/// Bytes of every example shape in every example layout, against the built-in layout: planned, encoded, decoded and proved; the fault of one that is
/// not ends the bench.
/// </summary>
internal static class LayoutBytes
{
    private static readonly (string Shape, string Machine)[] Shapes =
    [
        ("lighthouse.txt", "desktop-gantry.toml"), ("barn.stl", "desktop-gantry.toml"), ("thicket.txt", "desktop-gantry.toml"),
        ("kite.csv", "cardboard-plotter.toml"), ("heron.png", "wide-plotter.toml"), ("teapot.svg", "wide-plotter.toml"),
    ];

    public static IEnumerable<Figure> Measure()
    {
        foreach (var (name, machineName) in Shapes)
        {
            var machine = MachineFile.Read(Examples.At($"examples/machines/{machineName}"));
            var options = new ShapeOptions().On(machine) with { Limit = machine.Grid };
            var shape = Support.Under(ShapeFile.Read(Examples.At($"examples/shapes/{name}"), options), machine);
            var plan = Planner.Plan(shape, machine);
            yield return new Figure($"{name} built-in", "bytes", Goal.AtLeast(1), [plan.ImageBytes]);
            foreach (var layout in new[] { "rows-only", "relative-lines", "square-fills" })
                yield return new Figure($"{name} {layout}", "bytes", Goal.AtLeast(1), [Proved(layout, plan, machine, shape)]);
        }
    }

    private static int Proved(string name, Plan plan, Machine machine, Shape shape)
    {
        var layout = LayoutFile.Read(Examples.At($"examples/layouts/{name}.toml"));
        var image = LayoutImage.Parse(layout, LayoutLowering.Lower(layout, plan.Records, machine).ToBytes(), name);
        var proof = LayoutProof.Of(image, machine);
        var faults = proof.Proof.Faults.Where(fault => fault.Rule != JobRule.LargerThanStore).ToList();
        var worked = new ShapeBuilder(machine.Grid.X, machine.Grid.Y, 1, name);
        for (var job = new Interpreter(proof.Decoded, machine.Grid); job.MoveNext();)
            worked.Work(job.Current.Cell, job.Current.Layer, job.Current.Head);
        return faults.Count == 0 && ShapeCheck.Compare(shape, worked.Build()).IsNone ? image.Length
            : throw new InvalidOperationException($"{name} does not work the shape: {faults.FirstOrDefault()}");
    }
}

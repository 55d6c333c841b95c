using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Layouts.Tests;

/// <summary>The examples of the project.</summary>
internal static class Examples
{
    /// <summary>Each example shape and the machine that it is made for.</summary>
    public static readonly IReadOnlyList<(string Shape, string Machine)> Shapes =
    [
        ("lighthouse.txt", "desktop-gantry.toml"), ("kite.csv", "cardboard-plotter.toml"), ("thicket.txt", "desktop-gantry.toml"),
        ("heron.png", "wide-plotter.toml"), ("teapot.svg", "wide-plotter.toml"), ("barn.stl", "desktop-gantry.toml"),
    ];

    private static readonly Dictionary<string, (Shape Shape, Machine Machine, Plan Plan)> Plans = [];

    /// <summary>A layout by its file, or the tests' own: one-byte.</summary>
    public static Layout Layout(string name) => name == "one-byte" ? Layouts.Parse(Layouts.OneByte) : LayoutFile.Read(PathOf("layouts", name));

    public static Machine Machine(string name) => MachineFile.Read(PathOf("machines", name));

    /// <summary>An example shape planned with little effort, once for all tests.</summary>
    public static (Shape Shape, Machine Machine, Plan Plan) Planned(string name)
    {
        lock (Plans)
        {
            if (!Plans.TryGetValue(name, out var known))
            {
                var machine = Machine(Shapes.First(example => example.Shape == name).Machine);
                var shape = Support.Under(ShapeFile.Read(PathOf("shapes", name), new ShapeOptions().On(machine) with { Limit = machine.Grid }), machine);
                Plans[name] = known = (shape, machine, Planner.Plan(shape, machine, effort: 0.01));
            }
            return known;
        }
    }

    public static string PathOf(string kind, string name) => Path.Combine(Vectors.Root, "examples", kind, name);
}

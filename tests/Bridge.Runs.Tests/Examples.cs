using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Runs.Tests;

/// <summary>The project's own example machines, and jobs for them.</summary>
internal static class Examples
{
    public static byte[] MachineBytes(string name) => File.ReadAllBytes(Path.Combine(Vectors.Root, "examples", "machines", name));

    public static Machine Machine(string name) => MachineFile.Parse(MachineBytes(name), name);

    public static Machine Gantry { get; } = Machine("desktop-gantry.toml");

    public static Machine Plotter { get; } = Machine("cardboard-plotter.toml");

    public static JobFile Job(Machine machine, params Record[] records) =>
        new(machine.Grid, machine.Digest, Image.Of(machine.Width, records));

    /// <summary>A job of rows, patches, repeats and both heads on several layers.</summary>
    public static JobFile SmallJob { get; } = Job(Gantry,
        Record.Patch(Head.A, new Cell(2, 2), 4, 3, PatchWay.AlongX),
        Record.Row(RecordWidth.Four, Head.B, new Cell(6, 2), 2, 3),
        Record.Row(RecordWidth.Four, Head.A, new Cell(2, 2), 0, 4, rise: true),
        Record.Row(RecordWidth.Four, Head.A, new Cell(2, 3), 0, 4),
        Record.Again(RecordWidth.Four, 2, 3),
        Record.End);

    /// <summary>A job of a few cells, for tests that run it often.</summary>
    public static JobFile TinyJob { get; } = Job(Gantry,
        Record.Patch(Head.A, new Cell(2, 2), 2, 2, PatchWay.AlongX),
        Record.Row(RecordWidth.Four, Head.B, new Cell(5, 2), 2, 2),
        Record.End);

    public static JobFile Planned(string shape, Machine machine)
    {
        var plan = Planner.Plan(ShapeFile.Read(Path.Combine(Vectors.Root, "examples", "shapes", shape), new ShapeOptions()), machine);
        return new JobFile(machine.Grid, machine.Digest, Image.Of(plan.Width, plan.Records));
    }
}

using Bridge.Jobs;

namespace Bridge.Teaching.Tests;

/// <summary>Machines and jobs that several tests use.</summary>
internal static class TestJobs
{
    public static Machine Gantry { get; } = Example("desktop-gantry.toml");

    public static Machine Plotter { get; } = Example("cardboard-plotter.toml");

    public static Machine WidePlotter { get; } = Example("wide-plotter.toml");

    /// <summary>The examples of JOB-FORMAT.md: a row of five cells, a patch of head b a layer up, the end.</summary>
    public static JobFile RowAndPatch { get; } = Of(Gantry, "401204" + "7BA331" + "000000");

    /// <summary>A row of three, then two records done twice more, then a go and a line of three.</summary>
    public static JobFile Repeating { get; } = Of(Plotter,
        Record.Row(RecordWidth.Four, Head.A, new Cell(0, 0), 0, 3),
        Record.Row(RecordWidth.Four, Head.A, new Cell(0, 2), 0, 1),
        Record.Row(RecordWidth.Four, Head.B, new Cell(0, 3), 2, 2),
        Record.Again(RecordWidth.Four, 2, 2),
        Record.Go(Head.A, new Cell(2, 0)),
        Record.Line(Head.A, new Cell(5, 3)),
        Record.End);

    public static JobFile Of(Machine machine, string hex) =>
        new(machine.Grid, machine.Digest, Image.Parse(machine.Width, Convert.FromHexString(hex), "test"));

    public static JobFile Of(Machine machine, params IReadOnlyList<Record> records) =>
        new(machine.Grid, machine.Digest, Image.Of(machine.Width, records));

    private static Machine Example(string name) => MachineFile.Read(Path.Combine(AppContext.BaseDirectory, "machines", name));
}

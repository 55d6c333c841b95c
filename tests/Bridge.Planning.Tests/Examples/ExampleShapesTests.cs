using Bridge.Jobs;

namespace Bridge.Planning.Tests;

public class ExampleShapesTests
{
    private static readonly string Folder = FindFolder();

    [Theory]
    [InlineData("lighthouse.txt", "desktop-gantry.toml")]
    [InlineData("kite.csv", "cardboard-plotter.toml")]
    [InlineData("heron.png", "wide-plotter.toml")]
    [InlineData("teapot.svg", "wide-plotter.toml")]
    [InlineData("barn.stl", "desktop-gantry.toml")]
    public void An_example_is_worked_whole_on_its_machine_and_fits_the_store(string name, string machineName)
    {
        var machine = MachineFile.Read(Path.Combine(Folder, "machines", machineName));
        var shape = Read(name, machine);
        var plan = Planner.Plan(shape, machine);
        Assert.True(plan.Fits);
        Assert.True(ShapeCheck.Compare(shape, new Decoded(plan).ToShape(shape, machine.MayOverprint)).IsNone);

        var proof = JobProof.Of(Image.Of(plan.Width, plan.Records), machine);
        Assert.Empty(proof.Faults);
        Assert.Empty(proof.Cautions);
    }

    [Fact]
    public void The_thicket_does_not_fit_and_is_told_what_would_help()
    {
        var machine = MachineFile.Read(Path.Combine(Folder, "machines", "desktop-gantry.toml"));
        var shape = Read("thicket.txt", machine);
        var plan = Planner.Plan(shape, machine);
        Assert.False(plan.Fits);
        Assert.Equal(16, plan.Layers.Count);
        Assert.Contains(PlanAdvice.For(shape, machine, new FitLimits(), plan), advice => advice.EndsWith("which fits.", StringComparison.Ordinal));
        Assert.Empty(JobProof.Of(Image.Of(plan.Width, plan.Records), machine with { StoreBytes = 1 << 16 }).Cautions);
    }

    [Fact]
    public void The_lighthouse_takes_two_heads_and_all_sixteen_layers()
    {
        var machine = MachineFile.Read(Path.Combine(Folder, "machines", "desktop-gantry.toml"));
        var layers = Planner.Plan(Read("lighthouse.txt", machine), machine).Layers;
        Assert.Equal(16, layers.Count);
        Assert.All(layers, layer => Assert.True(layer.CellsA > 0));
        Assert.Contains(layers, layer => layer.CellsB > 0);
    }

    private static Shape Read(string name, Machine machine) =>
        ShapeFile.Read(Path.Combine(Folder, "shapes", name), new ShapeOptions { Limit = machine.Grid }.On(machine));

    private static string FindFolder()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Bridge.sln")))
            folder = Path.GetDirectoryName(folder) ?? throw new DirectoryNotFoundException("No folder above the tests holds Bridge.sln.");
        return Path.Combine(folder, "examples");
    }
}

namespace Bridge.Jobs.Tests;

public sealed class MachineFileExamplesTests
{
    [Fact]
    public void The_cardboard_plotter_has_two_pens_on_one_layer()
    {
        var machine = MachineFile.Read(ExampleMachines.PathOf("cardboard-plotter.toml"));

        Assert.Equal("Cardboard plotter", machine.Name);
        Assert.Equal(RecordWidth.Four, machine.Width);
        Assert.Equal(256, machine.StoreBytes);
        Assert.True(machine.MayOverprint);
        Assert.Equal(0, machine.OverhangCells);
        Assert.Equal(new Grid(16, 16, 1), machine.Grid);
        Assert.Null(machine.Z);
        Assert.Equal(new HeadTool.Pen(TimeSpan.FromSeconds(0.15), TimeSpan.FromSeconds(0.12), 0, 0), machine.A);
        Assert.Equal(new HeadTool.Pen(TimeSpan.FromSeconds(0.15), TimeSpan.FromSeconds(0.12), -20, 0), machine.B);
        Assert.Equal(TimeSpan.FromSeconds(0.2), machine.HeadChange);
        Assert.Equal(
            new Axis
            {
                Cells = 16, PitchMm = 5, StepsPerMm = 80, TopSpeedMmS = 60, AccelMmS2 = 400, ReferenceSpeedMmS = 10,
                Endstop = AxisEnd.Min, EndstopGapMm = 4, BacklashMm = 0.2,
            },
            machine.X);
    }

    [Fact]
    public void The_desktop_gantry_has_two_dot_heads_and_sixteen_layers()
    {
        var machine = MachineFile.Read(ExampleMachines.PathOf("desktop-gantry.toml"));

        Assert.Equal(RecordWidth.Four, machine.Width);
        Assert.Equal(256, machine.StoreBytes);
        Assert.False(machine.MayOverprint);
        Assert.Equal(1, machine.OverhangCells);
        Assert.Equal(new Grid(16, 16, 16), machine.Grid);
        Assert.Equal(AxisEnd.Max, machine.Y.Endstop);
        Assert.Equal(new HeadTool.Dot(TimeSpan.FromSeconds(0.4), 0, 0), machine.A);
        Assert.Equal(new HeadTool.Dot(TimeSpan.FromSeconds(0.6), -25, 0), machine.B);
        Assert.Equal(new TimeOuts(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(60)), machine.TimeOuts);
    }

    [Fact]
    public void The_wide_plotter_has_one_pen_and_takes_the_defaults()
    {
        var machine = MachineFile.Read(ExampleMachines.PathOf("wide-plotter.toml"));

        Assert.Equal(RecordWidth.Eight, machine.Width);
        Assert.Equal(4096, machine.StoreBytes);
        Assert.Equal(new Grid(256, 256, 1), machine.Grid);
        Assert.Null(machine.B);
        Assert.Equal(TimeSpan.Zero, machine.HeadChange);
        Assert.Equal(15, machine.X.ReferenceSpeedMmS);
        Assert.Equal(0, machine.X.BacklashMm);
        Assert.Equal(500_000, machine.Baud);
        Assert.Equal(new TimeOuts(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(60)), machine.TimeOuts);
    }

    [Fact]
    public void Each_example_in_the_folder_is_one_of_the_three()
    {
        var found = Directory.GetFiles(ExampleMachines.Folder, "*.toml").Select(Path.GetFileName).Order();

        Assert.Equal(ExampleMachines.Names, found);
    }

    [Fact]
    public void The_digest_is_that_of_the_file_s_bytes()
    {
        var path = ExampleMachines.PathOf("wide-plotter.toml");

        Assert.Equal(MachineDigest.Of(File.ReadAllBytes(path)), MachineFile.Read(path).Digest);
    }
}

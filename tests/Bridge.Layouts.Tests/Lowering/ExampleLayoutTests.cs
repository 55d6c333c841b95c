using Bridge.Jobs;

namespace Bridge.Layouts.Tests;

public class ExampleLayoutTests
{
    public static TheoryData<string, string> Pairs
    {
        get
        {
            var pairs = new TheoryData<string, string>();
            foreach (var layout in Directory.GetFiles(Examples.PathOf("layouts", ""), "*.toml").Select(Path.GetFileName).Order())
                foreach (var (shape, machine) in Examples.Shapes)
                    if (layout != "built-in-4.toml" || machine != "wide-plotter.toml")
                        pairs.Add(layout!, shape);
            return pairs;
        }
    }

    [Theory]
    [MemberData(nameof(Pairs))]
    public void An_example_layout_says_an_example_shape_and_what_is_read_back_works_it_cell_for_cell(string layout, string name)
    {
        var (shape, machine, plan) = Examples.Planned(name);
        Worked.Proved(Examples.Layout(layout), plan.Records, machine, shape);
    }

    [Theory]
    [InlineData("built-in-4.toml", "lighthouse.txt")]
    [InlineData("built-in-4.toml", "kite.csv")]
    [InlineData("built-in-4.toml", "thicket.txt")]
    [InlineData("built-in-4.toml", "barn.stl")]
    [InlineData("built-in-8.toml", "heron.png")]
    [InlineData("built-in-8.toml", "teapot.svg")]
    public void The_built_in_layout_written_as_a_file_gives_the_built_in_bytes(string layout, string name)
    {
        var (_, machine, plan) = Examples.Planned(name);
        Assert.Equal(Image.Of(machine.Width, plan.Records).Bytes.ToArray(), LayoutLowering.Lower(Examples.Layout(layout), plan.Records, machine).ToBytes());
    }
}

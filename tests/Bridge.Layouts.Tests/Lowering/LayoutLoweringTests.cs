using Bridge.Jobs;
using Bridge.Planning;
using CsCheck;

namespace Bridge.Layouts.Tests;

public class LayoutLoweringTests
{
    private static readonly Machine Gantry = Examples.Machine("desktop-gantry.toml");
    private static readonly Machine Plotter = Examples.Machine("cardboard-plotter.toml");

    public static TheoryData<string> Names => ["built-in-4.toml", "relative-lines.toml", "rows-only.toml", "square-fills.toml", "one-byte"];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_random_shape_of_several_layers_is_worked_as_it_is(string name)
    {
        var layout = Examples.Layout(name);
        Gen.Select(Gen.Int[1, 16], Gen.Int[1, 16], Gen.Int[1, 5], Gen.Int[0, 1_000_000]).Sample((x, y, layers, seed) =>
        {
            var shape = RandomShape(x, y, layers, seed);
            Worked.Proved(layout, Planner.Plan(shape, Gantry, effort: 0).Records, Gantry, shape);
        }, iter: 60);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Diagonals_repeats_of_a_few_records_and_lines_are_said_too(string name)
    {
        Record[] records =
        [
            Record.Row(Plotter.Width, Head.A, new Cell(2, 2), 1, 9), Record.Row(Plotter.Width, Head.B, new Cell(12, 1), 3, 8),
            Record.Line(Head.B, new Cell(0, 15)), Record.Go(Head.A, new Cell(15, 15)),
            Record.Patch(Head.A, new Cell(15, 14), 3, 2, PatchWay.XFalls | PatchWay.YFalls), Record.Again(Plotter.Width, 3, 4), Record.End,
        ];
        var image = Image.Of(Plotter.Width, records);
        Worked.Proved(Examples.Layout(name), records, Plotter, Worked.By(image, Plotter.Grid));
    }

    [Fact]
    public void A_repeat_in_a_relative_layout_begins_each_round_where_the_last_one_ended()
    {
        Record[] records =
        [
            Record.Row(Gantry.Width, Head.A, new Cell(3, 3), 0, 5), Record.Row(Gantry.Width, Head.A, new Cell(3, 5), 0, 5, rise: false),
            Record.Go(Head.A, new Cell(3, 3), rise: true), Record.Again(Gantry.Width, 3, 9), Record.End,
        ];
        var image = Worked.Proved(Examples.Layout("relative-lines.toml"), records, Gantry, Worked.By(Image.Of(Gantry.Width, records), Gantry.Grid));
        Assert.Contains(image.Words, word => image.Layout.VerbOf(word)!.Act == LayoutAct.Again);
        Assert.True(image.Words.Count < 12);
    }

    [Theory]
    [InlineData("head = \"head\"", "no way to take head b")]
    [InlineData("rise = \"rise\"", "no way up to the next layer")]
    public void What_a_layout_lacks_is_said_first(string line, string missing)
    {
        var layout = Layouts.Parse(Layouts.BuiltIn.Replace(line, "", StringComparison.Ordinal));
        var (_, machine, plan) = Examples.Planned("lighthouse.txt");
        var refusal = Assert.Throws<RefusedException>(() => LayoutLowering.Lower(layout, plan.Records, machine)).Refusals[0];
        Assert.Contains(missing, refusal.Found);
        Assert.Contains("end, go, row", refusal.Allowed);
    }

    [Fact]
    public void A_cell_beyond_the_places_of_a_layout_is_refused()
    {
        var layout = Layouts.Parse(Layouts.BuiltIn.Replace("positions_x = 16", "positions_x = 8", StringComparison.Ordinal));
        var (_, machine, plan) = Examples.Planned("kite.csv");
        Assert.Contains("where it counts 8 x 16 places",
            Assert.Throws<RefusedException>(() => LayoutLowering.Lower(layout, plan.Records, machine)).Refusals[0].Found);
    }

    [Fact]
    public void A_layout_with_no_work_or_no_move_says_so()
    {
        var end = Layouts.Top
            + "[fields]\nop = { place = 0, width = 2 }\nx = { place = 8, width = 4 }\ny = { place = 12, width = 4 }\n[verbs.end]\nwhen = { op = 0 }\n";
        var (_, machine, plan) = Examples.Planned("kite.csv");
        Assert.Contains("no verb that works a cell", Refused(end + "[verbs.go]\nwhen = { op = 1 }\nx = \"x\"\ny = \"y\"\n"));
        Assert.Contains("no verb that moves to",
            Refused(end + "[verbs.dot]\nwhen = { op = 1 }\n[verbs.head]\nwhen = { op = 2 }\nhead = \"x\"\n".Replace("\"x\"", "1", StringComparison.Ordinal)));

        string Refused(string text) => Assert.Throws<RefusedException>(
            () => LayoutLowering.Lower(Layouts.Parse(text), plan.Records.Where(record => record.Head == Head.A).ToList(), machine)).Refusals[0].Found;
    }

    [Fact]
    public void A_wait_is_said_or_missed()
    {
        Record[] records = [Record.Wait(Plotter.Width, 25), Record.WaitForOperator(), Record.End];
        Assert.Equal(Image.Of(Plotter.Width, records).Bytes.ToArray(), LayoutLowering.Lower(Examples.Layout("built-in-4.toml"), records, Plotter).ToBytes());
        Assert.Contains("no verb that waits", Assert.Throws<RefusedException>(
            () => LayoutLowering.Lower(Examples.Layout("rows-only.toml"), records, Plotter)).Refusals[0].Found);
    }

    private static Shape RandomShape(int x, int y, int layers, int seed)
    {
        var random = new Random(seed);
        var shape = new ShapeBuilder(x, y, layers, "random");
        shape.Work(new Cell(0, 0), 0, Head.A);
        for (var box = 0; box < 8; box++)
        {
            var (left, low, layer, head) = (random.Next(x), random.Next(y), random.Next(layers), (Head)random.Next(2));
            foreach (var cell in CellPath.Patch(new Cell(left, low), random.Next(1, x - left + 1), random.Next(1, y - low + 1), default))
                shape.Work(cell, layer, head);
        }
        return shape.Build();
    }
}

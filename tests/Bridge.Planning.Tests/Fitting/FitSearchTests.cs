using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class FitSearchTests
{
    // A wall of four layers with a notch on one of them.
    private const string Wall = "AAAA\n---\nAAAA\n---\nAA.A\n---\nAAAA";

    [Fact]
    public void What_fits_is_not_changed()
    {
        var shape = Shapes.Text(Wall);
        var found = FitSearch.Find(shape, Machines.Desktop, new FitLimits { MostCells = 100 });
        Assert.True(found.Change.IsNone);
        Assert.True(found.Plan.Fits);
        Assert.Same(shape, found.Worked);
    }

    [Fact]
    public void A_turn_that_is_enough_is_taken_before_any_cell_is_changed()
    {
        var found = FitSearch.Find(Shapes.Text(Wall), Stored(12), new FitLimits { MostCells = 100 });
        Assert.True(found.Plan.Fits);
        Assert.Equal(0, found.Change.Cells);
        Assert.NotEqual(Face.Bottom, found.Change.Way.Below); // lying, it is one layer
    }

    [Fact]
    public void The_fewest_cells_are_changed()
    {
        var found = FitSearch.Find(Shapes.Text(Wall), Stored(9), new FitLimits { MostCells = 100, Allowed = FitChanges.Even | FitChanges.Smooth });
        Assert.True(found.Plan.Fits);
        Assert.Equal((1, Orientation.AsItIs), (found.Change.Cells, found.Change.Way));
        Assert.Equal([2], found.Change.Layers);
        Assert.Contains("1 cell put in", $"{found.Change}");
    }

    [Fact]
    public void Where_nothing_fits_the_nearest_is_given_and_what_it_misses()
    {
        var found = FitSearch.Find(Shapes.Text("A.A.A.A.A"), Stored(6), new FitLimits { MostCells = 1, Allowed = FitChanges.Smooth });
        Assert.False(found.Plan.Fits);
        Assert.Equal((1, 6), (found.Change.Cells, (int)found.BytesTooMany)); // four records left, which need no end
        Assert.Equal(found.Plan.ImageBytes - 3 - 6, found.BytesTooMany);
    }

    [Fact]
    public void A_drawing_on_a_sheet_is_not_laid() =>
        Assert.True(FitSearch.Find(Shapes.Text(Wall), Stored(12) with { MayOverprint = true }, new FitLimits { Allowed = FitChanges.Lay }).Change.IsNone);

    [Fact]
    public void A_picture_gets_another_threshold_where_that_is_less()
    {
        var (dark, light) = (Shapes.Text("AAAA.A.A."), Shapes.Text("AAAA....."));
        var limits = new FitLimits { MostCells = 5, Allowed = FitChanges.Grey, AtThreshold = grey => grey < 100 ? light : dark };
        var found = FitSearch.Find(dark, Stored(6), limits);
        Assert.True(found.Plan.Fits);
        Assert.Equal("threshold 96 in place of 128: 2 cells left out", $"{found.Change}");
        Assert.False(FitSearch.Find(dark, Stored(6), limits with { MostCells = 1 }).Plan.Fits);
    }

    [Fact]
    public void A_smaller_size_is_the_last_that_is_tried()
    {
        var noise = Shapes.Text(string.Join('\n', Enumerable.Range(0, 10).Select(y => y % 2 == 0 ? "A.A.A.A.A." : ".A.A.A.A.A")));
        var found = FitSearch.Find(noise, Stored(15), new FitLimits { MostCells = 5 });
        Assert.InRange(found.Change.Percent, FitLimits.SmallestPercent, 95);
        Assert.Contains("% of its size", $"{found.Change}");
        Assert.Equal(100, FitSearch.Find(noise, Stored(15), new FitLimits { MostCells = 5, Allowed = FitChanges.All & ~FitChanges.Size }).Change.Percent);
    }

    [Fact]
    public void A_shape_that_fits_the_machine_only_when_it_lies_is_laid()
    {
        var tower = Shapes.Text(string.Join("\n---\n", Enumerable.Repeat("A", 12)));
        var low = Machines.Make(RecordWidth.Four, 16, 16, 2, 256);
        Assert.True(FitSearch.Find(tower, low, new FitLimits()).Plan.Fits);
        Refusing.IsRefusedAt("layer 2, cell (0, 0)", () => FitSearch.Find(tower, low, new FitLimits { Allowed = FitChanges.Turn }));
    }

    [Fact]
    public void Nothing_to_work_and_what_would_fall_unheld_are_refused()
    {
        Assert.Equal("nothing to work", Refusing.Of(() => FitSearch.Find(Shapes.Text("..."), Machines.Desktop, new FitLimits())).Found);
        var arm = Shapes.Text("A.....\n---\nAAAAAA");
        Refusing.IsRefusedAt("layer 1", () => FitSearch.Find(arm, Machines.Desktop, new FitLimits { AddSupport = false, Allowed = FitChanges.None }));
        Assert.NotEqual(Face.Bottom, FitSearch.Find(arm, Machines.Desktop, new FitLimits { AddSupport = false }).Change.Way.Below);
    }

    [Fact]
    public void An_ended_search_gives_what_it_has()
    {
        using var ended = new CancellationTokenSource();
        ended.Cancel();
        var found = FitSearch.Find(Shapes.Text(Wall), Stored(9), new FitLimits { MostCells = 100 }, null, ended.Token);
        Assert.True(found.Change.IsNone);
        Assert.False(found.Plan.Fits);
    }

    [Fact]
    public void Whatever_is_found_is_within_the_limits_and_its_job_works_the_changed_shape() =>
        Gen.Select(Shapes.Random(8, 8, 4).Where(shape => !shape.IsEmptyEverywhere), Gen.Int[1, 12], Gen.Int[0, 20], Gen.Int[0, 127]).Sample(drawn =>
        {
            var (shape, records, cells, allowed) = drawn;
            var limits = new FitLimits { MostCells = cells, Allowed = (FitChanges)allowed };
            Fitted found;
            try
            {
                found = FitSearch.Find(shape, Stored(3 * records), limits);
            }
            catch (RefusedException)
            {
                return; // a closed hollow that cannot be supported
            }
            var difference = ShapeCheck.Compare(found.Change.Before, found.Change.After);
            Assert.Equal(found.Change.Cells, difference.Missing + difference.Extra + difference.WrongHead);
            Assert.InRange(found.Change.Cells, 0, cells);
            Assert.Equal(Shapes.Written(shape), Shapes.Written(found.Change.Before));
            Assert.Contains(found.Change.Way, Allowed(limits));
            Assert.Equal(found.Change.After.Count(Head.A), found.Worked.Count(Head.A));
            Assert.Null(Support.Falling(found.Worked, Stored(3)));
            Assert.True(ShapeCheck.Compare(found.Worked, new Decoded(found.Plan).ToShape(found.Worked, false)).IsNone);
            Assert.Equal(found.Plan.Fits, found.BytesTooMany == 0);
        }, seed: "0000fitting1", iter: 15);

    private static IEnumerable<Orientation> Allowed(FitLimits limits) => Orientation.All.Where(way => way == Orientation.AsItIs
        || limits.Allows(way.Below == Face.Bottom ? FitChanges.Turn : FitChanges.Lay));

    private static Machine Stored(int bytes) => Machines.Desktop with { StoreBytes = bytes };
}

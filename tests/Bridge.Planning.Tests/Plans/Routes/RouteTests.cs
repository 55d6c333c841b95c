using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class RouteTests
{
    private static readonly IdleTimes Times = new(Machines.Make(RecordWidth.Eight, 200, 200, 1, 256));

    [Fact]
    public void Every_block_is_visited_once_and_worked_in_one_of_its_ways() =>
        Gen.Select(Masks.Noise(40, 40), Gen.Bool).Sample((mask, comesBack) =>
        {
            var blocks = RectanglePartition.Cut(mask);
            var route = Of(blocks, comesBack);
            Assert.Equal(blocks.OrderBy(block => (block.Y, block.X)), route.Select(stop => stop.Block).OrderBy(block => (block.Y, block.X)));
            Assert.All(route, stop => Assert.Contains(stop.Stroke, stop.Block.Strokes().SelectMany(stroke => new[] { stroke, stroke.Turned })));
        }, seed: "0000route001", iter: 50);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Few_blocks_are_visited_in_nearly_the_least_time(bool comesBack)
    {
        var (taken, least, optimal, samples) = (0.0, 0.0, 0, 0);
        foreach (var boxes in FixedSamples.Of(Gen.Select(Gen.Int[0, 30], Gen.Int[0, 30], Gen.Int[1, 4], Gen.Int[1, 4]).Array[2, 5], 60))
        {
            var blocks = boxes.Select(box => new Block(box.Item1, box.Item2, box.Item3, box.Item4)).Distinct().ToList();
            var route = Of(blocks, comesBack);
            var (seconds, best) = (Seconds(route, comesBack), LeastByTrying(blocks, comesBack));
            (taken, least) = (taken + seconds, least + best);
            (optimal, samples) = (optimal + (seconds < best + 1e-4 ? 1 : 0), samples + 1);
        }
        Assert.InRange(taken / least, 0.999, 1.01);
        Assert.InRange(optimal, comesBack ? samples / 2 : samples * 9 / 10, samples);
    }

    [Fact]
    public void The_order_takes_less_time_than_row_by_row()
    {
        var blocks = RectanglePartition.Cut(Masks.Noise(60, 60, 50, seed: 2));
        var byRow = blocks.Select(block => (block, block.Strokes().First())).ToList();
        Assert.InRange(Seconds(Of(blocks, false), false), 0, Seconds(byRow, false) * 0.7);
    }

    [Fact]
    public void The_seconds_that_are_counted_step_by_step_are_those_of_the_whole() =>
        Masks.Noise(25, 25).Sample(mask =>
        {
            var blocks = RectanglePartition.Cut(mask);
            var stops = blocks.Select(block => StopChoice.Of(block, Head.A, Times)).ToArray();
            var neighbours = Enumerable.Range(0, blocks.Count).Select(stop =>
                Enumerable.Range(0, blocks.Count).Where(other => other != stop).Take(10).ToArray()).ToArray();
            var order = new RouteOrder(
                stops, neighbours, [.. Enumerable.Range(0, blocks.Count)], new int[blocks.Count], default, Times, new Effort(5_000_000));
            var seconds = order.Seconds();
            order.ImproveAll();
            Assert.InRange(order.Seconds(), 0, seconds + 1e-3);
            seconds = order.Seconds();
            order.Disturb(200, new Random(1));
            Assert.InRange(order.Seconds(), 0, seconds + 1e-3);
        }, seed: "0000route003", iter: 30);

    private static List<(Block Block, Stroke Stroke)> Of(List<Block> blocks, bool comesBack) =>
        [.. Route.Of(blocks, default, Head.A, comesBack, Times, new Effort(20_000_000))];

    // The way to the first block, between blocks, and back to the first where it comes back; and what the ways of working differ by.
    private static double Seconds(List<(Block Block, Stroke Stroke)> route, bool comesBack)
    {
        var (at, seconds) = (default(Cell), 0.0);
        foreach (var (block, stroke) in route)
        {
            seconds += Times.Between(at, stroke.First) + Times.Of(block, stroke, Head.A);
            at = stroke.Last;
        }
        return seconds + (comesBack ? Times.Between(at, route[0].Stroke.First) : 0);
    }

    private static double LeastByTrying(List<Block> blocks, bool comesBack)
    {
        return Least([], blocks);

        double Least(List<(Block, Stroke)> done, List<Block> left) => left.Count == 0
            ? Seconds(done, comesBack)
            : left.Min(block => block.Strokes().SelectMany(stroke => new[] { stroke, stroke.Turned }).Distinct()
                .Min(stroke => Least([.. done, (block, stroke)], [.. left.Where(other => other != block)])));
    }
}

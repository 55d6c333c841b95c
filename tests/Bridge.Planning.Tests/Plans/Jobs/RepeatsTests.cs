using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

public class RepeatsTests
{
    [Theory]
    [InlineData("AAAA", 2, 4, 2 + 1 + 1)] // all layers alike: written once with a last rise, then done again
    [InlineData("AAAA", 2, 5, 2 + 1 + 1)]
    [InlineData("AAAA", 1, 4, 1 + 1 + 1)]
    [InlineData("ABBB", 5, 4, 5 + 5 + 1)]
    [InlineData("CABABAB", 3, 7, 3 + 6 + 1)] // groups of several layers
    [InlineData("ABCD", 4, 4, 16)]
    [InlineData("AABB", 4, 4, 4 + 2 + 4 + 2)] // the rise that ends the first group begins the second
    public void Layers_that_repeat_are_written_once(string layers, int blocks, int gridLayers, int records)
    {
        var parts = Parts(layers, blocks);
        Assert.InRange(RecordsOf(parts, Repeats.Find(parts, RecordWidth.Eight, gridLayers + 1)), 0, records);
    }

    [Fact]
    public void A_job_that_ends_on_the_highest_layer_does_not_rise_above_it()
    {
        var parts = Parts("AAAA", 9);
        Assert.DoesNotContain(Repeats.Find(parts, RecordWidth.Eight, layers: 4), stretch => stretch.EndsRisen);
        Assert.Contains(Repeats.Find(parts, RecordWidth.Eight, layers: 5), stretch => stretch.EndsRisen);
    }

    [Fact]
    public void Nothing_shorter_is_missed() =>
        Gen.Select(Gen.Char["ABC"].Array[1, 7], Gen.Int[1, 3], Gen.Bool).Sample((layers, blocks, hasRoom) =>
        {
            var parts = Parts(new string(layers), blocks);
            var grid = parts.Count + (hasRoom ? 1 : 0);
            var stretches = Repeats.Find(parts, RecordWidth.Four, grid);
            Assert.Equal(Shortest(parts, 0, isRisen: true, grid), RecordsOf(parts, stretches));
            Assert.Equal(Enumerable.Range(0, parts.Count).Select(part => parts[part].Kind), Done(parts, stretches));
        }, seed: "0000repeats1", iter: 300);

    [Fact]
    public void No_more_is_repeated_and_no_more_often_than_a_record_can_tell()
    {
        var parts = Parts(new string('A', 1000), 1);
        Assert.All(Repeats.Find(parts, RecordWidth.Four, 1001), stretch => Assert.InRange(stretch.Times, 1, 256));
        var large = Parts("AAAAAA", 300);
        Assert.All(Repeats.Find(large, RecordWidth.Four, 7), stretch => Assert.Equal(1, stretch.Times));
    }

    private static List<Part> Parts(string layers, int blocks) =>
        [.. layers.Index().Select(layer =>
            new Part(layer.Index, true, Head.A, layer.Item, [.. Enumerable.Range(0, blocks).Select(x => new Block(x, 0, 1, 1))]))];

    private static int RecordsOf(List<Part> parts, List<Stretch> stretches) => stretches.Sum(stretch =>
        Enumerable.Range(stretch.First, stretch.Count).Sum(part => parts[part].Records) + (stretch.Times > 1 ? 1 : 0) + (stretch.EndsRisen ? 1 : 0));

    private static IEnumerable<int> Done(List<Part> parts, List<Stretch> stretches) => stretches.SelectMany(stretch =>
        Enumerable.Range(0, stretch.Count * stretch.Times).Select(part => parts[stretch.First + part % stretch.Count].Kind));

    // Every first stretch is tried. No part is empty here, so that a rise that is done saves nothing by itself.
    private static int Shortest(List<Part> parts, int first, bool isRisen, int gridLayers)
    {
        if (first == parts.Count)
            return 0;
        var shortest = parts[first].Records + Shortest(parts, first + 1, false, gridLayers);
        for (var count = 1; first + 2 * count <= parts.Count; count++)
            for (var times = 2; first + times * count <= parts.Count; times++)
            {
                var end = first + times * count;
                if (!Enumerable.Range(first + count, end - first - count).All(part => parts[part].Kind == parts[part - count].Kind))
                    break;
                var written = Enumerable.Range(first, count).Sum(part => parts[part].Records) + 1;
                if (!isRisen)
                    shortest = Math.Min(shortest, written + Shortest(parts, end, false, gridLayers));
                else if (end < gridLayers)
                    shortest = Math.Min(shortest, written + 1 + Shortest(parts, end, true, gridLayers));
            }
        return shortest;
    }
}

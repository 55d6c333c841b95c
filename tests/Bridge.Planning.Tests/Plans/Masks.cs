using Bridge.Jobs;
using CsCheck;

namespace Bridge.Planning.Tests;

internal static class Masks
{
    public static Mask Text(string text) => Mask.Of(Shapes.Text(text), 0, Head.A)!;

    public static Mask Of(IEnumerable<(int X, int Y)> cells) => Mask.Of([.. cells.Select(cell => new Block(cell.X, cell.Y, 1, 1))]);

    // Each cell worked with a chance of its own drawing, at least one of them.
    public static Gen<Mask> Noise(int maxWidth, int maxDepth) =>
        from width in Gen.Int[1, maxWidth]
        from depth in Gen.Int[1, maxDepth]
        from percent in Gen.Int[10, 95]
        from draws in Gen.Int[0, 99].Array[width * depth]
        where draws.Any(draw => draw < percent)
        select Of(draws.Index().Where(draw => draw.Item < percent).Select(draw => (draw.Index % width, draw.Index / width)));

    public static Mask Noise(int width, int depth, int percent, int seed)
    {
        var random = new Random(seed);
        return Of(from y in Enumerable.Range(0, depth)
                  from x in Enumerable.Range(0, width)
                  where random.Next(100) < percent
                  select (x, y));
    }

    public static IEnumerable<(int X, int Y)> CellsOf(Mask mask) =>
        from y in Enumerable.Range(0, mask.Depth)
        from x in Enumerable.Range(0, mask.Width)
        where mask[x, y]
        select (x, y);

    public static void AssertPartition(Mask mask, IReadOnlyCollection<Block> blocks) =>
        Assert.Equal(CellsOf(mask), blocks.SelectMany(CellsOf).OrderBy(cell => cell.Y).ThenBy(cell => cell.X));

    public static void AssertCover(Mask mask, IReadOnlyCollection<Block> blocks) =>
        Assert.Equal(CellsOf(mask), blocks.SelectMany(CellsOf).Distinct().OrderBy(cell => cell.Y).ThenBy(cell => cell.X));

    // Told from the meaning of a block, not by its own list.
    public static IEnumerable<(int X, int Y)> CellsOf(Block block) => block.Slant switch
    {
        Slant.Rises => Enumerable.Range(0, block.CellsX).Select(i => (block.X + i, block.Y + i)),
        Slant.Falls => Enumerable.Range(0, block.CellsX).Select(i => (block.X + i, block.Y + block.CellsY - 1 - i)),
        _ => from y in Enumerable.Range(block.Y, block.CellsY) from x in Enumerable.Range(block.X, block.CellsX) select (x, y),
    };
}

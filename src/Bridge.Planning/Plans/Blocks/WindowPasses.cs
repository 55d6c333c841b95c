namespace Bridge.Planning;

/// <summary>
/// Makes a cutting better window by window: each pass looks at the grid another way round and moves its windows, and among
/// equal cuttings of a window takes any, so that the next windows find new ones.
/// </summary>
internal sealed class WindowPasses(int width, int depth, Random random, Effort effort)
{
    private const int MostColumns = 24;

    /// <summary>Passes over a cutting until it has so few blocks, the effort is spent, or some passes in a row have saved nothing.</summary>
    public List<Block> Improve(List<Block> blocks, int rows, int states, int atLeast, int idlePasses)
    {
        for (var idle = 0; idle < idlePasses && blocks.Count > atLeast && effort.IsLeft; idle++)
        {
            var better = Pass(blocks, (View)random.Next(Views.Count), rows, states);
            if (better.Count < blocks.Count)
                idle = 0;
            blocks = better;
        }
        return blocks;
    }

    /// <summary>One pass over all windows of so many rows.</summary>
    public List<Block> Pass(List<Block> blocks, View view, int rows, int states)
    {
        var (seenWidth, seenDepth) = view.HasFlag(View.Transposed) ? (depth, width) : (width, depth);
        var grid = new LabelGrid(seenWidth, seenDepth, blocks.Select(block => block.Seen(view, width, depth)));
        var columns = Math.Min(seenWidth, MostColumns);
        var (left, bottom) = (seenWidth > columns ? -random.Next(columns) : 0, seenDepth > rows ? -random.Next(rows) : 0);
        for (var y = bottom; y < seenDepth; y += rows)
            for (var x = left; x < seenWidth && effort.IsLeft; x += columns)
            {
                var window = new Window(Math.Max(0, x), Math.Max(0, y), Math.Min(seenWidth, x + columns), Math.Min(seenDepth, y + rows));
                FrontierSearch.Improve(grid, window, states, random, effort);
            }
        return grid.ToBlocks().ConvertAll(block => block.Unseen(view, width, depth));
    }
}

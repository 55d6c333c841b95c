namespace Bridge.Planning;

/// <summary>The blocks that some cells of a mask may be covered by, and the number of each of those cells.</summary>
internal sealed class BlockCandidates
{
    private readonly int[] _number; // of each place of the mask; -1 where no cell is to be covered

    /// <summary>Finds them.</summary>
    /// <param name="mask">The cells that may be worked.</param>
    /// <param name="isDue">Which places of the mask are to be covered; all its cells where null.</param>
    /// <param name="mayOverlap">Whether a cell may be in several blocks: then only blocks that cannot be made longer count, and single cells.</param>
    /// <param name="most">How many are wanted at most; one more tells that there are too many.</param>
    public BlockCandidates(Mask mask, bool[]? isDue, bool mayOverlap, int most)
    {
        Mask = mask;
        MayOverlap = mayOverlap;
        _number = new int[mask.Cells.Length];
        for (var place = 0; place < _number.Length; place++)
            _number[place] = (isDue is null ? mask.Cells[place] : isDue[place]) ? CellCount++ : -1;
        var wanted = All().Where(block => !mayOverlap || block is { CellsX: 1, CellsY: 1 } || IsLongest(block));
        Blocks.AddRange((isDue is null ? wanted : wanted.Where(block => NumbersOf(block).Length > 0)).Take(most + 1));
    }

    /// <summary>The mask they lie in.</summary>
    public Mask Mask { get; }

    /// <summary>Whether a cell may be in several blocks.</summary>
    public bool MayOverlap { get; }

    /// <summary>Cells to cover.</summary>
    public int CellCount { get; private set; }

    /// <summary>The blocks. Every cell is one of them by itself.</summary>
    public List<Block> Blocks { get; } = [];

    /// <summary>The number, 0 and up, of a cell to cover; -1 of another.</summary>
    public int NumberOf(int x, int y) => _number[y * Mask.Width + x];

    /// <summary>The numbers of the cells that a block covers.</summary>
    public int[] NumbersOf(Block block) => [.. block.Cells().Select(cell => NumberOf(cell.X, cell.Y)).Where(number => number >= 0)];

    private IEnumerable<Block> All()
    {
        for (var y = 0; y < Mask.Depth; y++)
            for (var x = 0; x < Mask.Width; x++)
            {
                var right = Mask.Width;
                for (var top = y; top < Mask.Depth && Mask[x, top]; top++)
                {
                    var end = x;
                    while (end < right && Mask[end, top])
                        yield return new Block(x, y, ++end - x, top - y + 1);
                    right = end;
                }
                for (var cells = 2; Mask[x, y] && Mask[x + cells - 1, y + cells - 1]; cells++)
                    yield return new Block(x, y, cells, cells, Slant.Rises);
                for (var cells = 2; Mask[x, y] && Mask[x + cells - 1, y - cells + 1]; cells++)
                    yield return new Block(x, y - cells + 1, cells, cells, Slant.Falls);
            }
    }

    private bool IsLongest(Block block)
    {
        int left = block.X - 1, below = block.Y - 1, right = block.X + block.CellsX, above = block.Y + block.CellsY;
        return block.Slant switch
        {
            Slant.Rises => !Mask[left, below] && !Mask[right, above],
            Slant.Falls => !Mask[left, above] && !Mask[right, below],
            _ => !IsColumn(left) && !IsColumn(right) && !IsRow(below) && !IsRow(above),
        };

        bool IsColumn(int x)
        {
            for (var y = block.Y; y < above; y++)
                if (!Mask[x, y])
                    return false;
            return true;
        }

        bool IsRow(int y)
        {
            for (var x = block.X; x < right; x++)
                if (!Mask[x, y])
                    return false;
            return true;
        }
    }
}

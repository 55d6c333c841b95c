using System.Diagnostics;

namespace Bridge.Planning;

/// <summary>What a cell is in a cutting, told by its neighbours alone.</summary>
[Flags]
internal enum CellLabel : byte
{
    /// <summary>Not worked.</summary>
    Empty = 0,

    /// <summary>On a rising diagonal: one with the cell down left of it where that one is labelled so too.</summary>
    Rises = 1,

    /// <summary>On a falling diagonal: one with the cell up left of it where that one is labelled so too.</summary>
    Falls = 2,

    /// <summary>In a rectangle.</summary>
    Rectangle = 4,

    /// <summary>In a rectangle with the cell left of it.</summary>
    JoinedLeft = 5,

    /// <summary>In a rectangle with the cell below it.</summary>
    JoinedBelow = 6,

    /// <summary>In a rectangle with both.</summary>
    JoinedBoth = 7,
}

/// <summary>A cutting without overlaps, as the labels of its cells.</summary>
internal sealed class LabelGrid
{
    private readonly CellLabel[] _labels;

    /// <summary>Labels the cells of blocks that lie within a width and depth.</summary>
    public LabelGrid(int width, int depth, IEnumerable<Block> blocks)
    {
        (Width, Depth) = (width, depth);
        _labels = new CellLabel[width * depth];
        foreach (var block in blocks)
            foreach (var cell in block.Cells())
                this[cell.X, cell.Y] = block.Slant switch
                {
                    Slant.Rises => CellLabel.Rises,
                    Slant.Falls => CellLabel.Falls,
                    _ => CellLabel.Rectangle | (CellLabel)((cell.X > block.X ? 1 : 0) | (cell.Y > block.Y ? 2 : 0)),
                };
    }

    /// <summary>Cells along X.</summary>
    public int Width { get; }

    /// <summary>Cells along Y.</summary>
    public int Depth { get; }

    /// <summary>The label of a cell; empty outside.</summary>
    public CellLabel this[int x, int y]
    {
        get => (uint)x < (uint)Width && (uint)y < (uint)Depth ? _labels[y * Width + x] : CellLabel.Empty;
        set => _labels[y * Width + x] = value;
    }

    /// <summary>The blocks that the labels mean, by the y, then the x of their first cells.</summary>
    public List<Block> ToBlocks()
    {
        List<Block> blocks = [];
        for (var y = 0; y < Depth; y++)
            for (var x = 0; x < Width; x++)
                if (BlockFrom(x, y) is { } block)
                    blocks.Add(block);
        return blocks;
    }

    private Block? BlockFrom(int x, int y)
    {
        var label = this[x, y];
        Debug.Assert((byte)label != 3, "No cell is on two diagonals.");
        if (label == CellLabel.Rectangle)
        {
            int cellsX = 1, cellsY = 1;
            while (this[x + cellsX, y] == CellLabel.JoinedLeft)
                cellsX++;
            while (this[x, y + cellsY] == CellLabel.JoinedBelow)
                cellsY++;
            return new Block(x, y, cellsX, cellsY);
        }
        var rise = label == CellLabel.Rises ? 1 : -1;
        if (label is not (CellLabel.Rises or CellLabel.Falls) || this[x - 1, y - rise] == label)
            return null;
        var cells = 1;
        while (this[x + cells, y + rise * cells] == label)
            cells++;
        if (cells == 1)
            return new Block(x, y, 1, 1);
        return label == CellLabel.Rises ? new Block(x, y, cells, cells, Slant.Rises) : new Block(x, y - cells + 1, cells, cells, Slant.Falls);
    }
}

using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>A rectangle of cells.</summary>
/// <param name="Low">Its corner with the smallest x and y.</param>
/// <param name="CellsX">Cells along X, 1 and up.</param>
/// <param name="CellsY">Cells along Y, 1 and up.</param>
internal readonly record struct CellBlock(Cell Low, int CellsX, int CellsY);

/// <summary>
/// The ways to take a work apart into what a layout has: each is a sequence, and each part of it a choice of pieces that work the same cells.
/// </summary>
internal sealed class BlockPieces(Layout layout, bool mayOverprint)
{
    private readonly int _row = Most(layout, LayoutAct.Row, LayoutRole.Count);
    private readonly int _patchX = Most(layout, LayoutAct.Patch, LayoutRole.SizeX);
    private readonly int _patchY = Most(layout, LayoutAct.Patch, LayoutRole.SizeY);
    private readonly int _square = Most(layout, LayoutAct.Square, LayoutRole.Size);

    /// <summary>The sequences for a row of cells, the likely shortest first.</summary>
    public IEnumerable<IEnumerable<IReadOnlyList<LayoutPiece>>> OfRow(Cell first, int heading, int cells)
    {
        var path = CellPath.Row(first, heading, cells);
        if (cells == 1)
        {
            yield return [[.. OfCell(first)]];
            yield break;
        }
        if (_row > 0)
            yield return Rows(path);
        if (heading % 2 == 0)
            foreach (var sequence in OfRectangle(BlockOf(path), PatchWay.AlongX))
                yield return sequence;
        yield return Cells(path);
    }

    /// <summary>The sequences for a rectangle of cells.</summary>
    public IEnumerable<IEnumerable<IReadOnlyList<LayoutPiece>>> OfPatch(CellPath path, PatchWay way)
    {
        foreach (var sequence in OfRectangle(BlockOf(path), way))
            yield return sequence;
        if (_row > 0)
        {
            yield return RowsOf(BlockOf(path), path.Start, alongY: false);
            yield return RowsOf(BlockOf(path), path.Start, alongY: true);
        }
        yield return Cells(path);
    }

    private IEnumerable<IEnumerable<IReadOnlyList<LayoutPiece>>> OfRectangle(CellBlock block, PatchWay way)
    {
        if (_patchX > 0 && _patchY > 0)
            yield return Tiles(block, _patchX, _patchY, overlap: false).Select(tile => Pieces(tile, way));
        if (_square > 0)
            yield return Squares(block).Select(square => Pieces(square, way));
        if (_square > 0 && mayOverprint)
        {
            var side = Math.Min(_square, Math.Min(block.CellsX, block.CellsY));
            yield return Tiles(block, side, side, overlap: true).Select(square => Pieces(square, way));
        }
    }

    private static IReadOnlyList<LayoutPiece> Pieces(CellBlock block, PatchWay way) =>
        block is { CellsX: 1, CellsY: 1 } ? [.. OfCell(block.Low)] : [.. LayoutPiece.Rectangle(block.Low, block.CellsX, block.CellsY, way)];

    private static IEnumerable<LayoutPiece> OfCell(Cell cell) =>
    [
        LayoutPiece.Row(cell, 0, 1), LayoutPiece.Dot(cell),
        .. Enumerable.Range(1, Heading.Count - 1).Select(heading => LayoutPiece.Row(cell, heading, 1)), .. LayoutPiece.Rectangle(cell, 1, 1, PatchWay.AlongX),
    ];

    private static IEnumerable<IReadOnlyList<LayoutPiece>> Cells(CellPath path)
    {
        foreach (var cell in path)
            yield return [.. OfCell(cell)];
    }

    // A row in parts that a record can count, each along it or back.
    private IEnumerable<IReadOnlyList<LayoutPiece>> Rows(CellPath row)
    {
        var (cells, heading) = ((int)row.Cells, HeadingOf(row.Start, row.Last));
        for (var done = 0; done < cells; done += _row)
        {
            var part = CellPath.Row(CellPath.Row(row.Start, heading, done + 1).Last, heading, Math.Min(_row, cells - done));
            yield return [LayoutPiece.Row(part.Start, heading, (int)part.Cells), LayoutPiece.Row(part.Last, heading ^ 4, (int)part.Cells)];
        }
    }

    // All rows of a rectangle, back and forth from the corner where its own path starts.
    private IEnumerable<IReadOnlyList<LayoutPiece>> RowsOf(CellBlock block, Cell corner, bool alongY)
    {
        var (rows, length) = alongY ? (block.CellsX, block.CellsY) : (block.CellsY, block.CellsX);
        var (right, top) = (corner.X > block.Low.X, corner.Y > block.Low.Y);
        for (var row = 0; row < rows; row++)
        {
            var across = (alongY ? right : top) ? rows - 1 - row : row;
            var back = (alongY ? top : right) != (row % 2 == 1);
            var first = alongY
                ? new Cell(block.Low.X + across, back ? block.Low.Y + length - 1 : block.Low.Y)
                : new Cell(back ? block.Low.X + length - 1 : block.Low.X, block.Low.Y + across);
            var heading = (alongY ? 2 : 0) + (back ? 4 : 0);
            foreach (var part in length == 1 ? [[.. OfCell(first)]] : Rows(CellPath.Row(first, heading, length)))
                yield return part;
        }
    }

    private static IEnumerable<CellBlock> Tiles(CellBlock block, int mostX, int mostY, bool overlap)
    {
        var forth = true;
        foreach (var (y, cellsY) in Cut(block.CellsY, mostY, overlap))
        {
            var columns = Cut(block.CellsX, mostX, overlap);
            foreach (var (x, cellsX) in forth ? columns : columns.Reverse())
                yield return new CellBlock(new Cell(block.Low.X + x, block.Low.Y + y), cellsX, cellsY);
            forth = !forth;
        }
    }

    private static IEnumerable<(int At, int Cells)> Cut(int cells, int most, bool overlap)
    {
        for (var at = 0; at < cells; at += most)
            yield return overlap ? (Math.Max(0, Math.Min(at, cells - most)), Math.Min(most, cells)) : (at, Math.Min(most, cells - at));
    }

    // As many of the largest squares as there is room for, then what is left beside and above them.
    private IEnumerable<CellBlock> Squares(CellBlock block)
    {
        if (block.CellsX == 0 || block.CellsY == 0)
            return [];
        var side = Math.Min(_square, Math.Min(block.CellsX, block.CellsY));
        var (x, y) = (block.CellsX / side * side, block.CellsY / side * side);
        return Tiles(block with { CellsX = x, CellsY = y }, side, side, overlap: false)
            .Concat(Squares(new CellBlock(block.Low with { X = block.Low.X + x }, block.CellsX - x, y)))
            .Concat(Squares(new CellBlock(block.Low with { Y = block.Low.Y + y }, block.CellsX, block.CellsY - y)));
    }

    private static CellBlock BlockOf(CellPath path)
    {
        var (one, other) = path.Corners;
        return new CellBlock(new Cell(Math.Min(one.X, other.X), Math.Min(one.Y, other.Y)), Math.Abs(one.X - other.X) + 1, Math.Abs(one.Y - other.Y) + 1);
    }

    private static int HeadingOf(Cell first, Cell last) => Enumerable.Range(0, Heading.Count)
        .First(heading => Heading.Dx(heading) == Math.Sign(last.X - first.X) && Heading.Dy(heading) == Math.Sign(last.Y - first.Y));

    private static int Most(Layout layout, LayoutAct act, LayoutRole role) =>
        layout.Doing(act).Select(verb => layout.Most(verb, role)).DefaultIfEmpty(0).Max();
}

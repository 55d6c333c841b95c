using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Work that one record may do.</summary>
/// <param name="Act">What does it.</param>
/// <param name="First">The cell it starts on.</param>
/// <param name="Last">The cell it ends on.</param>
/// <param name="Say">Says what is beside place, head and rise.</param>
internal sealed record LayoutPiece(LayoutAct Act, Cell First, Cell Last, Func<LayoutWriting, LayoutWriting> Say)
{
    public static LayoutPiece Dot(Cell cell) => new(LayoutAct.Dot, cell, cell, writing => writing);

    public static LayoutPiece Row(Cell first, int heading, int cells) =>
        new(LayoutAct.Row, first, CellPath.Row(first, heading, cells).Last, writing => writing.Heading(heading).Count(LayoutRole.Count, cells));

    /// <summary>A line to a cell, from where the head stands.</summary>
    public static LayoutPiece Line(Cell from, Cell to) => new(LayoutAct.Line, from, to, writing => writing);

    /// <summary>A rectangle from its lowest corner in every way, the given one first.</summary>
    public static IEnumerable<LayoutPiece> Rectangle(Cell low, int cellsX, int cellsY, PatchWay first)
    {
        foreach (var way in Enumerable.Range(0, 8).Select(number => (PatchWay)(number ^ (int)first)))
        {
            var corner = new Cell(way.HasFlag(PatchWay.XFalls) ? low.X + cellsX - 1 : low.X, way.HasFlag(PatchWay.YFalls) ? low.Y + cellsY - 1 : low.Y);
            var last = CellPath.Patch(corner, cellsX, cellsY, way).Last;
            yield return new(LayoutAct.Patch, corner, last, writing => writing.Way(way).Count(LayoutRole.SizeX, cellsX).Count(LayoutRole.SizeY, cellsY));
            if (cellsX == cellsY)
                yield return new(LayoutAct.Square, corner, last, writing => writing.Way(way).Count(LayoutRole.Size, cellsX));
        }
    }
}

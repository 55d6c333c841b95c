namespace Bridge.Planning;

/// <summary>
/// The points where four cells of a mask meet, told apart by which of the four are worked. Point (x, y) is the lower left
/// corner of cell (x, y).
/// </summary>
internal static class Corners
{
    /// <summary>The four cells of a point as bits: lower left 1, lower right 2, upper left 4, upper right 8.</summary>
    public static int At(Mask mask, int x, int y) =>
        (mask[x - 1, y - 1] ? 1 : 0) | (mask[x, y - 1] ? 2 : 0) | (mask[x - 1, y] ? 4 : 0) | (mask[x, y] ? 8 : 0);

    /// <summary>Whether a point is a concave corner: three of its cells are worked.</summary>
    public static bool IsConcave(int cells) => cells is 0b0111 or 0b1011 or 0b1101 or 0b1110;

    /// <summary>The way, 1 or -1, in which a horizontal cut leaves a concave corner: away from the cell that is missing.</summary>
    public static int CutAlongX(int concave) => concave is 0b1110 or 0b1011 ? 1 : -1;

    /// <summary>The way, 1 or -1, in which a vertical cut leaves a concave corner: away from the cell that is missing.</summary>
    public static int CutAlongY(int concave) => concave is 0b1110 or 0b1101 ? 1 : -1;

    /// <summary>
    /// The concave corners of a mask, and its Euler number: islands less holes, with cells that touch by corners apart
    /// (Gray, IEEE Transactions on Computers C-20, 1971).
    /// </summary>
    public static (int Concave, int Euler) Count(Mask mask)
    {
        int convex = 0, concave = 0, touching = 0;
        for (var y = 0; y <= mask.Depth; y++)
            for (var x = 0; x <= mask.Width; x++)
                switch (At(mask, x, y))
                {
                    case 0b0001 or 0b0010 or 0b0100 or 0b1000:
                        convex++;
                        break;
                    case 0b1001 or 0b0110:
                        touching++;
                        break;
                    case 0b0111 or 0b1011 or 0b1101 or 0b1110:
                        concave++;
                        break;
                }
        return (concave, (convex - concave + 2 * touching) / 4);
    }
}

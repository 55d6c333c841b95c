namespace Bridge.Jobs;

/// <summary>Freeman's eight directions (IRE Trans. EC-10, 1961): 0 is +X, then counter-clockwise by 45 degrees.</summary>
public static class Heading
{
    /// <summary>How many headings there are.</summary>
    public const int Count = 8;

    private static ReadOnlySpan<sbyte> AlongX => [1, 1, 0, -1, -1, -1, 0, 1];

    private static ReadOnlySpan<sbyte> AlongY => [0, 1, 1, 1, 0, -1, -1, -1];

    /// <summary>Cells along X for one cell of a heading 0 to 7: -1, 0 or 1.</summary>
    public static int Dx(int heading) => AlongX[heading];

    /// <summary>Cells along Y for one cell of a heading 0 to 7: -1, 0 or 1.</summary>
    public static int Dy(int heading) => AlongY[heading];
}

namespace Bridge.Planning;

/// <summary>Error diffusion by R. W. Floyd and L. Steinberg (Proc. SID 17(2), 1976): right 7/16, below left 3/16, below 5/16, below right 1/16.</summary>
internal static class FloydSteinberg
{
    // In half levels the middle between 0 and 255 is a whole number. Shares are cut towards zero: the tone stays true to about a
    // level, and the two greys next to the middle, 127 and 128, give a checkerboard without a flaw. Black stays
    // black and white stays white whatever lies around: no error is large enough to carry them across the middle.
    private const int White = 2 * 255;

    /// <summary>Which pixels become dark. Grey levels 0 (black) to 255, row by row from the top, scanned left to right.</summary>
    public static bool[] Dark(ReadOnlySpan<byte> greys, int width)
    {
        var dark = new bool[greys.Length];
        var (errors, below) = (new int[width + 2], new int[width + 2]); // index x + 1: both edges have a spare place
        for (var top = 0; top < greys.Length; top += width)
        {
            for (var x = 0; x < width; x++)
            {
                var level = 2 * greys[top + x] + errors[x + 1];
                dark[top + x] = level < White / 2;
                var error = level - (dark[top + x] ? 0 : White);
                errors[x + 2] += error * 7 / 16;
                below[x] += error * 3 / 16;
                below[x + 1] += error * 5 / 16;
                below[x + 2] += error / 16;
            }
            (errors, below) = (below, errors);
            Array.Clear(below);
        }
        return dark;
    }
}

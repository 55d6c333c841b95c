namespace Bridge.Planning;

/// <summary>Pictures of grey levels made larger or smaller: each new pixel is the mean of the area that it covers.</summary>
internal static class GreyScaling
{
    /// <summary>Grey levels row by row, from one width and depth to others, all 1 and up.</summary>
    public static byte[] Of(byte[] greys, int width, int newWidth, int newDepth)
    {
        var depth = greys.Length / width;
        var narrow = new float[newWidth * depth];
        for (var x = 0; x < newWidth; x++)
            foreach (var (from, share) in Covered(x, width, newWidth))
                for (var y = 0; y < depth; y++)
                    narrow[y * newWidth + x] += share * greys[y * width + from];
        var scaled = new byte[newWidth * newDepth];
        var row = new float[newWidth];
        for (var y = 0; y < newDepth; y++)
        {
            Array.Clear(row);
            foreach (var (from, share) in Covered(y, depth, newDepth))
                for (var x = 0; x < newWidth; x++)
                    row[x] += share * narrow[from * newWidth + x];
            for (var x = 0; x < newWidth; x++)
                scaled[y * newWidth + x] = (byte)Math.Clamp(MathF.Round(row[x]), 0, 255);
        }
        return scaled;
    }

    // Which old pixels a new one covers along one side, and their shares of it.
    private static IEnumerable<(int From, float Share)> Covered(int at, int old, int now)
    {
        var (start, end) = ((double)at * old / now, (double)(at + 1) * old / now);
        for (var from = (int)start; from < old && from < end; from++)
        {
            var share = (Math.Min(end, from + 1) - Math.Max(start, from)) / (end - start);
            if (share > 0)
                yield return (from, (float)share);
        }
    }
}

namespace Bridge.Cli.Tests;

/// <summary>
/// The cells that an image works, decoded from firmware-protocol/JOB-FORMAT.md alone. It shares no code with the program, so that the two can be
/// held against each other; it is plain, slow, and trusts its image.
/// </summary>
internal sealed class JobDecoder(int axisBits, byte[] image)
{
    private static readonly (int X, int Y)[] Headings = [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)];

    private readonly List<(char Head, int X, int Y, int Layer)> _worked = [];
    private int _x, _y, _layer;
    private char _head = 'a';

    /// <summary>Every cell in the order of the work.</summary>
    public static List<(char Head, int X, int Y, int Layer)> Cells(int axisBits, byte[] image)
    {
        var decoder = new JobDecoder(axisBits, image);
        decoder.All();
        return decoder._worked;
    }

    private void All()
    {
        var length = 1 + axisBits / 2;
        for (var at = 0; at + length <= image.Length; at += length)
        {
            var bits = Bits(image.AsSpan(at, length));
            if (bits == 0)
                return;
            if (Verb(bits) != 5)
            {
                Do(bits);
                continue;
            }

            var reach = Pair(bits, 3) + 1;
            for (var times = Pair(bits, 1) + 1; times > 0; times--)
                for (var back = reach; back > 0; back--)
                    Do(Bits(image.AsSpan(at - back * length, length)));
        }
    }

    private void Do(long bits)
    {
        var heading = (int)(bits >> (4 * axisBits + 1)) & 7;
        _layer += (int)(bits >> (4 * axisBits)) & 1;
        if (Verb(bits) is 1 or 2 or 3 or 4)
            _head = (bits >> (4 * axisBits + 4) & 1) == 0 ? 'a' : 'b';
        var (x, y) = (Field(bits, 3), Field(bits, 2));
        switch (Verb(bits))
        {
            case 1:
                (_x, _y) = (x, y);
                break;
            case 2:
                (_x, _y) = (x, y);
                Work();
                for (var more = Pair(bits, 1); more > 0; more--)
                    Step(Headings[heading].X, Headings[heading].Y);
                break;
            case 3:
                (_x, _y) = (x, y);
                Patch(Field(bits, 1), Field(bits, 0), heading);
                break;
            case 4:
                Line(x, y);
                break;
            case 6:
                break;
            default:
                throw new InvalidOperationException($"No such verb: {bits:X}");
        }
    }

    private void Patch(int alongX, int alongY, int way)
    {
        var (dx, dy) = ((way & 2) == 0 ? 1 : -1, (way & 4) == 0 ? 1 : -1);
        var columns = (way & 1) == 1;
        var (length, rows) = columns ? (alongY, alongX) : (alongX, alongY);
        Work();
        for (var row = 0; ; row++)
        {
            var forth = row % 2 == 0 ? 1 : -1;
            for (var step = 0; step < length; step++)
                Step(columns ? 0 : dx * forth, columns ? dy * forth : 0);
            if (row == rows)
                return;
            Step(columns ? dx : 0, columns ? 0 : dy);
        }
    }

    private void Line(int toX, int toY)
    {
        var (dx, dy) = (Math.Abs(toX - _x), Math.Abs(toY - _y));
        var (sx, sy) = (Math.Sign(toX - _x), Math.Sign(toY - _y));
        var (longer, shorter) = dx >= dy ? (dx, dy) : (dy, dx);
        var d = 2 * shorter - longer;
        for (var step = 0; step < longer; step++)
        {
            var both = d >= 0;
            Step(dx >= dy || both ? sx : 0, dx < dy || both ? sy : 0);
            d += both ? 2 * (shorter - longer) : 2 * shorter;
        }
    }

    private void Step(int x, int y)
    {
        (_x, _y) = (_x + x, _y + y);
        Work();
    }

    private void Work() => _worked.Add((_head, _x, _y, _layer));

    private static long Bits(ReadOnlySpan<byte> record)
    {
        var bits = 0L;
        foreach (var part in record)
            bits = bits << 8 | part;
        return bits;
    }

    private int Verb(long bits) => (int)(bits >> (4 * axisBits + 5)) & 7;

    // x, y, p, q are fields 3, 2, 1, 0.
    private int Field(long bits, int index) => (int)(bits >> (index * axisBits)) & ((1 << axisBits) - 1);

    private int Pair(long bits, int high) => Field(bits, high) << axisBits | Field(bits, high - 1);
}

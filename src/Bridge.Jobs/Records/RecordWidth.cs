namespace Bridge.Jobs;

/// <summary>The size of a machine's records, given by the bits of an axis: 4, 8 or 12.</summary>
public readonly record struct RecordWidth
{
    /// <summary>3-byte records, 16 places on an axis.</summary>
    public static readonly RecordWidth Four = new(4);

    /// <summary>5-byte records, 256 places on an axis.</summary>
    public static readonly RecordWidth Eight = new(8);

    /// <summary>7-byte records, 4096 places on an axis.</summary>
    public static readonly RecordWidth Twelve = new(12);

    private RecordWidth(int axisBits) => AxisBits = axisBits;

    /// <summary>Every width there is, narrowest first.</summary>
    public static IReadOnlyList<RecordWidth> All { get; } = [Four, Eight, Twelve];

    /// <summary>Bits of one axis: 4, 8 or 12.</summary>
    public int AxisBits { get; }

    /// <summary>Bytes of one record: (8 + 4n) / 8, so 3, 5 or 7.</summary>
    public int Bytes => 1 + AxisBits / 2;

    /// <summary>Places that an axis can name: 2^n, so 16, 256 or 4096.</summary>
    public int Places => 1 << AxisBits;

    /// <summary>The largest number that a pair of fields holds: 2^2n - 1.</summary>
    public int LargestPair => (1 << (2 * AxisBits)) - 1;

    /// <summary>The width with that many bits on an axis; false unless 4, 8 or 12.</summary>
    public static bool TryFrom(int axisBits, out RecordWidth width)
    {
        width = new RecordWidth(axisBits);
        return axisBits is 4 or 8 or 12;
    }
}

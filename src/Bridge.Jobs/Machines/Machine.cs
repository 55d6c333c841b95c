namespace Bridge.Jobs;

/// <summary>All that the tool knows of one machine, as its machine file gives it.</summary>
public sealed record Machine
{
    /// <summary>What people call it, 1 to 64 characters.</summary>
    public required string Name { get; init; }

    /// <summary>The size of its records.</summary>
    public required RecordWidth Width { get; init; }

    /// <summary>The byte budget of an image: the controller's store, 3 to 16 777 216.</summary>
    public required int StoreBytes { get; init; }

    /// <summary>Whether a cell may be worked more than once.</summary>
    public required bool MayOverprint { get; init; }

    /// <summary>How far a cell may stick out over the layer below: 0 or 1 cells.</summary>
    public required int OverhangCells { get; init; }

    /// <summary>The X axis.</summary>
    public required Axis X { get; init; }

    /// <summary>The Y axis.</summary>
    public required Axis Y { get; init; }

    /// <summary>The Z axis; null on a machine of one layer.</summary>
    public Axis? Z { get; init; }

    /// <summary>Head a.</summary>
    public required HeadTool A { get; init; }

    /// <summary>Head b; null on a machine with one head.</summary>
    public HeadTool? B { get; init; }

    /// <summary>Time to change heads beside any movement it takes, 0 to 60 s.</summary>
    public TimeSpan HeadChange { get; init; }

    /// <summary>Bits per second of the serial line, 9600 to 1 000 000.</summary>
    public required int Baud { get; init; }

    /// <summary>The machine's time-outs.</summary>
    public required TimeOuts TimeOuts { get; init; }

    /// <summary>SHA-256 of the machine file's bytes.</summary>
    public required MachineDigest Digest { get; init; }

    /// <summary>The cells it can reach.</summary>
    public Grid Grid => new(X.Cells, Y.Cells, Z?.Cells ?? 1);

    /// <summary>The tool at a head; null where the machine has no such head.</summary>
    public HeadTool? Tool(Head head) => head == Head.A ? A : B;
}

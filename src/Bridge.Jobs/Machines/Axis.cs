namespace Bridge.Jobs;

/// <summary>One axis of a machine, named as ISO 841 does.</summary>
public sealed record Axis
{
    /// <summary>Places along it: 1 to 2^n for X and Y, 1 to 4096 for Z.</summary>
    public required int Cells { get; init; }

    /// <summary>Distance between neighbouring cells in mm, 0.01 to 1000.</summary>
    public required double PitchMm { get; init; }

    /// <summary>Motor steps for one mm, 0.01 to 100 000.</summary>
    public required double StepsPerMm { get; init; }

    /// <summary>Highest speed in mm/s, 0.01 to 10 000.</summary>
    public required double TopSpeedMmS { get; init; }

    /// <summary>Acceleration in mm/s², 0.1 to 1 000 000.</summary>
    public required double AccelMmS2 { get; init; }

    /// <summary>Speed at which the axis looks for its endstop in mm/s, 0.001 to the highest speed.</summary>
    public required double ReferenceSpeedMmS { get; init; }

    /// <summary>The end at which its endstop is.</summary>
    public required AxisEnd Endstop { get; init; }

    /// <summary>Distance from where the endstop closes to the nearest cell in mm, above 0 and at most 1000.</summary>
    public required double EndstopGapMm { get; init; }

    /// <summary>Play to take up when the direction turns, in mm, 0 to 10.</summary>
    public required double BacklashMm { get; init; }

    /// <summary>How well it finds its zero again; null where that was never measured.</summary>
    public Repeatability? Repeat { get; init; }
}

/// <summary>One end of an axis.</summary>
public enum AxisEnd : byte
{
    /// <summary>The end where cell 0 is.</summary>
    Min = 0,

    /// <summary>The end where the last cell is.</summary>
    Max = 1,
}

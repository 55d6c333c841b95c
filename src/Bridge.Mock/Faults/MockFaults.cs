using Bridge.Jobs;

namespace Bridge.Mock;

/// <summary>What goes wrong with a mock device and its line; by default nothing.</summary>
public sealed record MockFaults
{
    /// <summary>Nothing goes wrong.</summary>
    public static MockFaults None { get; } = new();

    /// <summary>Damage on the way to the device.</summary>
    public LineNoise ToDevice { get; init; } = new();

    /// <summary>Damage on the way to the host.</summary>
    public LineNoise ToHost { get; init; } = new();

    /// <summary>The e-stop is pressed when this many cells have been worked, 1 and up; null for never.</summary>
    public long? EStopAt { get; init; }

    /// <summary>The e-stop is released so long after it was pressed; null for never. From 0 to 3600 s.</summary>
    public TimeSpan? EStopReleasedAfter { get; init; }

    /// <summary>Endstops that fail, each from a number of worked cells on.</summary>
    public IReadOnlyList<EndstopFailure> Endstops { get; init; } = [];

    /// <summary>Motors that skip steps.</summary>
    public IReadOnlyList<SkippedSteps> Skips { get; init; } = [];

    /// <summary>
    /// The line is cut when this many cells have been worked, 1 and up; null for never. A line opened later is whole.
    /// </summary>
    public long? CutAt { get; init; }

    /// <summary>The device hears and never says a word.</summary>
    public bool IsSilent { get; init; }

    /// <summary>Reads faults such as `drop=0.01,estop-at=20`; see <see cref="FaultText"/>.</summary>
    /// <exception cref="Bridge.Jobs.RefusedException">A word is unknown or a value outside its range.</exception>
    public static MockFaults Parse(string text) => FaultText.Parse(text);
}

/// <summary>Damage to frames in one direction: for each frame the chance, 0 to 1, of each kind.</summary>
/// <param name="Drop">The frame is lost.</param>
/// <param name="Flip">One bit of it is turned.</param>
/// <param name="Duplicate">It arrives twice.</param>
/// <param name="Late">It is late, and all after it.</param>
/// <param name="LateBy">How late.</param>
public sealed record LineNoise(double Drop = 0, double Flip = 0, double Duplicate = 0, double Late = 0, TimeSpan LateBy = default);

/// <summary>An endstop that fails.</summary>
/// <param name="Axis">Its axis.</param>
/// <param name="Fault">How it fails.</param>
/// <param name="AtCell">When this many cells have been worked; 0 from the start.</param>
public sealed record EndstopFailure(AxisName Axis, EndstopFault Fault, long AtCell = 0);

/// <summary>A motor that skips steps once.</summary>
/// <param name="Axis">Its axis.</param>
/// <param name="AtCell">When this many cells have been worked, 1 and up.</param>
/// <param name="Steps">How many steps the carriage is off afterwards, to either side.</param>
public sealed record SkippedSteps(AxisName Axis, long AtCell, double Steps);

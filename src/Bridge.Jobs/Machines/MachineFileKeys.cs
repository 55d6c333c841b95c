namespace Bridge.Jobs;

/// <summary>Every key of a machine file, each declared once.</summary>
internal static class MachineFileKeys
{
    private const string Reference = "a tenth of top_speed_mm_s";

    public static readonly MachineFileKey<int> Format =
        new("format", new MachineFileFormat(MachineFile.Format), "the format of this file");

    public static readonly MachineFileKey<string> Name =
        new("name", new MachineFileName(64), "what people call the machine");

    public static readonly MachineFileKey<RecordWidth> AxisBits =
        new("axis_bits",
            new MachineFileChoice<RecordWidth>(("4", RecordWidth.Four), ("8", RecordWidth.Eight), ("12", RecordWidth.Twelve)),
            "bits that a record has for a place along an axis (n): records of 3, 5 or 7 bytes");

    public static readonly MachineFileKey<int> StoreBytes =
        new("store_bytes", new MachineFileInteger(3, 16_777_216, "bytes"),
            "the controller's memory for a job; it must hold one record");

    public static readonly MachineFileKey<bool> Overprint =
        new("overprint", new MachineFileChoice<bool>(("\"allow\"", true), ("\"forbid\"", false)),
            "whether a cell may be worked more than once: a pen may, a deposit may not");

    public static readonly MachineFileKey<int> OverhangCells =
        new("overhang_cells", new MachineFileInteger(0, 1, "cells"), 0, "0",
            "how far a cell may stick out over the layer below; 1 is the 45-degree rule of thumb");

    public static readonly MachineFileKey<double> HeadChangeSeconds =
        new("head_change_seconds", new MachineFileNumber(0, 60, "s"), 0, "0",
            "time to change heads, beside any movement it takes");

    public static readonly MachineFileKey<int> Cells =
        new("cells", new MachineFileInteger(1, 4096, "cells"), "places along the axis; along X and Y at most 2^axis_bits");

    public static readonly MachineFileKey<double> PitchMm =
        new("pitch_mm", new MachineFileNumber(0.01, 1000, "mm"), "distance between neighbouring cells");

    public static readonly MachineFileKey<double> StepsPerMm =
        new("steps_per_mm", new MachineFileNumber(0.01, 100_000, "steps/mm"),
            "motor steps for one mm; a cell must take 1 to 65535 steps");

    public static readonly MachineFileKey<double> TopSpeedMmS =
        new("top_speed_mm_s", new MachineFileNumber(0.01, 10_000, "mm/s"), "highest speed");

    public static readonly MachineFileKey<double> AccelMmS2 =
        new("accel_mm_s2", new MachineFileNumber(0.1, 1_000_000, "mm/s^2"), "acceleration, and deceleration too");

    public static readonly MachineFileKey<AxisEnd> Endstop =
        new("endstop", new MachineFileChoice<AxisEnd>(("\"min\"", AxisEnd.Min), ("\"max\"", AxisEnd.Max)),
            "the end where the endstop is: where cell 0 is, or where the last cell is");

    public static readonly MachineFileKey<double> EndstopGapMm =
        new("endstop_gap_mm", new MachineFileNumber(0, 1000, "mm", aboveMin: true),
            "from where the endstop closes to the nearest cell");

    public static readonly MachineFileKey<double> BacklashMm =
        new("backlash_mm", new MachineFileNumber(0, 10, "mm"), 0, "0", "play to take up when the direction turns");

    public static readonly MachineFileKey<double> ReferenceSpeedMmS =
        new("reference_speed_mm_s", new MachineFileNumber(0.001, 10_000, "mm/s"), 0, Reference,
            "speed at which the axis looks for its endstop; at most top_speed_mm_s");

    public static readonly MachineFileKey<int> RepeatReadings =
        new("repeat_readings", new MachineFileInteger(0, 1000, "references"), 0, "0",
            "references that were read to find how well the zero is found again; 0: it was not measured, else 2 or more");

    public static readonly MachineFileKey<double> RepeatMeanMm =
        new("repeat_mean_mm", new MachineFileNumber(-10, 10, "mm"), 0, "0", "mean of where the endstop closed, from where it first did");

    public static readonly MachineFileKey<double> RepeatDeviationMm =
        new("repeat_deviation_mm", new MachineFileNumber(0, 10, "mm"), 0, "0",
            "standard deviation of where the endstop closed: how sure lost steps are follows from it");

    public static readonly MachineFileKey<HeadKind> Kind =
        new("kind", new MachineFileChoice<HeadKind>(("\"dot\"", HeadKind.Dot), ("\"pen\"", HeadKind.Pen)),
            "a dot head stops at each cell and deposits there; a pen is lowered and passes over cells");

    public static readonly MachineFileKey<double> SecondsPerCell =
        new("seconds_per_cell", new MachineFileNumber(0, 60, "s"), "time at each cell", "required for a dot head");

    public static readonly MachineFileKey<double> LowerSeconds =
        new("lower_seconds", new MachineFileNumber(0, 60, "s"), "time to lower the pen", "required for a pen");

    public static readonly MachineFileKey<double> LiftSeconds =
        new("lift_seconds", new MachineFileNumber(0, 60, "s"), "time to lift the pen", "required for a pen");

    public static readonly MachineFileKey<(double X, double Y)> OffsetMm =
        new("offset_mm", new MachineFilePair(-1000, 1000, "mm"), default, "[0, 0]",
            "where the head stands from the carriage's own place; it may not take the carriage into an endstop");

    public static readonly MachineFileKey<int> Baud =
        new("baud", new MachineFileInteger(9600, 1_000_000, "baud"), 500_000, "500000", "bits per second of the serial line");

    public static readonly MachineFileKey<double> AnswerSeconds =
        new("answer_seconds", new MachineFileNumber(0.1, 60, "s"), 2, "2",
            "how long a device may take to answer before it counts as gone");

    public static readonly MachineFileKey<double> LineSilenceSeconds =
        new("line_silence_seconds", new MachineFileNumber(0.1, 10, "s"), 0.5, "0.5",
            "how long a moving device may hear nothing before it stops and holds");

    public static readonly MachineFileKey<double> ReferenceSeconds =
        new("reference_seconds", new MachineFileNumber(1, 600, "s"), 60, "60", "how long an axis may look for its endstop");

    public static IReadOnlyList<MachineFileTable> Tables { get; } =
    [
        new([""], [Format, Name, AxisBits, StoreBytes, Overprint, OverhangCells, HeadChangeSeconds]),
        new(["axes.x", "axes.y", "axes.z"],
            [Cells, PitchMm, StepsPerMm, TopSpeedMmS, AccelMmS2, Endstop, EndstopGapMm, BacklashMm, ReferenceSpeedMmS,
                RepeatReadings, RepeatMeanMm, RepeatDeviationMm]),
        new(["heads.a", "heads.b"], [Kind, SecondsPerCell, LowerSeconds, LiftSeconds, OffsetMm]),
        new(["link"], [Baud]),
        new(["timeouts"], [AnswerSeconds, LineSilenceSeconds, ReferenceSeconds]),
    ];
}

/// <summary>The kinds of head that a machine file knows.</summary>
internal enum HeadKind
{
    Dot,
    Pen,
}

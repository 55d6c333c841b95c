using System.Globalization;
using Keys = Bridge.Jobs.MachineFileKeys;

namespace Bridge.Jobs;

/// <summary>What two values must be to one another. A check waits until both are good by themselves.</summary>
internal sealed class MachineFileChecks(MachineFileMistakes mistakes)
{
    private const double MaxStepsPerCell = 65_535;

    public void StoreHoldsARecord(MachineFileSetting<int> store, MachineFileSetting<RecordWidth> width)
    {
        if (!store.Good || !width.Good || store.Value >= width.Value.Bytes) return;

        mistakes.Add(store.At, Keys.StoreBytes.Name, $"{store.Value}",
            $"at least {width.Value.Bytes} bytes, one record of a machine with axis_bits = {width.Value.AxisBits}",
            "Give the store's real size.");
    }

    public void CellsFitRecords(string table, MachineFileSetting<int> cells, MachineFileSetting<RecordWidth> width)
    {
        if (!cells.Good || !width.Good || cells.Value <= width.Value.Places) return;

        mistakes.Add(cells.At, Key(table, Keys.Cells), $"{cells.Value}",
            $"1 to {width.Value.Places} cells with axis_bits = {width.Value.AxisBits}", "Take fewer cells or more axis_bits.");
    }

    public void StepsOfACellFit(string table, MachineFileSetting<double> pitch, MachineFileSetting<double> steps)
    {
        var stepsPerCell = pitch.Value * steps.Value;
        if (!pitch.Good || !steps.Good || (stepsPerCell >= 1 && stepsPerCell <= MaxStepsPerCell)) return;

        mistakes.Add(steps.At, Key(table, Keys.StepsPerMm),
            $"{Text(steps.Value)}, which is {Text(stepsPerCell)} steps for a cell",
            $"1 to {MaxStepsPerCell} steps for a cell (pitch_mm times steps_per_mm)", "Check both values.");
    }

    public void ReferenceIsNoFaster(string table, MachineFileSetting<double> reference, MachineFileSetting<double> top)
    {
        if (!reference.Good || !top.Good || reference.Value <= top.Value) return;

        mistakes.Add(reference.At, Key(table, Keys.ReferenceSpeedMmS), Text(reference.Value),
            $"at most {Text(top.Value)} mm/s, the axis's top_speed_mm_s", "Look for the endstop more slowly.");
    }

    /// <summary>One reading does not scatter, and what scatters was read.</summary>
    public void ScatterHasReadings(
        string table, MachineFileSetting<int> readings, MachineFileSetting<double> mean, MachineFileSetting<double> deviation)
    {
        var isMeasured = mean.Value != 0 || deviation.Value != 0;
        if (!readings.Good || !mean.Good || !deviation.Good || readings.Value >= 2 || (readings.Value == 0 && !isMeasured)) return;

        mistakes.Add(readings.At, Key(table, Keys.RepeatReadings), $"{readings.Value}",
            "2 or more beside repeat_mean_mm and repeat_deviation_mm, or 0 and none of them",
            "Let bridge setup or bridge calibrate repeat write all three.");
    }

    /// <summary>From the far end, too, the endstop is found before the time for it is over.</summary>
    public void EndstopIsFoundInTime(string table, Axis axis, MachineFileSetting<double> seconds)
    {
        var needed = (axis.Cells * axis.PitchMm + axis.EndstopGapMm) / axis.ReferenceSpeedMmS;
        if (!seconds.Good || !double.IsFinite(needed) || needed <= seconds.Value) return;

        mistakes.Add(seconds.At, Key("timeouts", Keys.ReferenceSeconds), Text(seconds.Value),
            $"at least {Text(Math.Ceiling(needed))} s, which {table} needs from its far end at {Text(axis.ReferenceSpeedMmS)} mm/s (reference_speed_mm_s)",
            "Allow more time, or look for the endstop faster.");
    }

    /// <summary>The carriage stands at the cell's place less the offset of the head: it shifts the other way.</summary>
    public void CarriageStaysClear(string table, MachineFileSetting<(double X, double Y)> offset, Axis x, Axis y)
    {
        CarriageStaysClear(table, offset.At, "X", offset.Value.X, x);
        CarriageStaysClear(table, offset.At, "Y", offset.Value.Y, y);
    }

    private void CarriageStaysClear(string table, Tomlyn.Syntax.TextPosition at, string axis, double offset, Axis along)
    {
        var towardsEndstop = along.Endstop == AxisEnd.Min ? offset : -offset;
        if (along.EndstopGapMm <= 0 || towardsEndstop < along.EndstopGapMm) return;

        var bound = along.Endstop == AxisEnd.Min ? $"below {Text(along.EndstopGapMm)}" : $"above -{Text(along.EndstopGapMm)}";
        mistakes.Add(at, Key(table, Keys.OffsetMm), $"{Text(offset)} along {axis}, which takes the carriage into the endstop",
            $"{bound} mm along {axis} (endstop_gap_mm)",
            "Enlarge the gap, or count the carriage's place from the other head.");
    }

    private static string Key<T>(string table, MachineFileKey<T> key) => MachineFileDocument.Join(table, key.Name);

    private static string Text(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);
}

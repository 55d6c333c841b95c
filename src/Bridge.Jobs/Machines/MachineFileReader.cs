using Keys = Bridge.Jobs.MachineFileKeys;

namespace Bridge.Jobs;

/// <summary>Makes a machine from a document, noting each mistake. With mistakes noted, what it returns means nothing.</summary>
internal sealed class MachineFileReader
{
    private readonly MachineFileSettings _file;
    private readonly MachineFileChecks _checks;

    public MachineFileReader(MachineFileDocument document, MachineFileMistakes mistakes)
    {
        _file = new MachineFileSettings(document, mistakes);
        _checks = new MachineFileChecks(mistakes);
    }

    public Machine Read(MachineDigest digest)
    {
        _file.ReadFormat();
        _file.NoteStrangers();

        var name = _file.Get("", Keys.Name);
        var width = _file.Get("", Keys.AxisBits);
        var store = _file.Get("", Keys.StoreBytes);
        var overprint = _file.Get("", Keys.Overprint);
        var overhang = _file.Get("", Keys.OverhangCells);
        var headChange = Seconds("", Keys.HeadChangeSeconds);
        _checks.StoreHoldsARecord(store, width);

        var x = ReadAxis("axes.x", width);
        var y = ReadAxis("axes.y", width);
        var z = _file.Has("axes.z") ? ReadAxis("axes.z", null) : null;
        var reference = _file.Get("timeouts", Keys.ReferenceSeconds);
        _checks.EndstopIsFoundInTime("axes.x", x, reference);
        _checks.EndstopIsFoundInTime("axes.y", y, reference);
        if (z is not null) _checks.EndstopIsFoundInTime("axes.z", z, reference);
        return new Machine
        {
            Name = name.Value,
            Width = width.Value,
            StoreBytes = store.Value,
            MayOverprint = overprint.Value,
            OverhangCells = overhang.Value,
            HeadChange = headChange,
            X = x,
            Y = y,
            Z = z,
            A = ReadHead("heads.a", x, y),
            B = _file.Has("heads.b") ? ReadHead("heads.b", x, y) : null,
            Baud = _file.Get("link", Keys.Baud).Value,
            TimeOuts = new TimeOuts(
                Seconds("timeouts", Keys.AnswerSeconds),
                Seconds("timeouts", Keys.LineSilenceSeconds),
                reference.Good ? TimeSpan.FromSeconds(reference.Value) : default),
            Digest = digest,
        };
    }

    // Layers are counted by rise, not named by a record: Z has no width to fit.
    private Axis ReadAxis(string table, MachineFileSetting<RecordWidth>? width)
    {
        if (!_file.Require(table)) return Nothing;

        var cells = _file.Get(table, Keys.Cells);
        var pitch = _file.Get(table, Keys.PitchMm);
        var steps = _file.Get(table, Keys.StepsPerMm);
        var top = _file.Get(table, Keys.TopSpeedMmS);
        var reference = _file.Get(table, Keys.ReferenceSpeedMmS, top.Value / 10);
        if (width is { } records) _checks.CellsFitRecords(table, cells, records);
        _checks.StepsOfACellFit(table, pitch, steps);
        _checks.ReferenceIsNoFaster(table, reference, top);
        return new Axis
        {
            Cells = cells.Value,
            PitchMm = pitch.Value,
            StepsPerMm = steps.Value,
            TopSpeedMmS = top.Value,
            AccelMmS2 = _file.Get(table, Keys.AccelMmS2).Value,
            ReferenceSpeedMmS = reference.Value,
            Endstop = _file.Get(table, Keys.Endstop).Value,
            EndstopGapMm = _file.Get(table, Keys.EndstopGapMm).Value,
            BacklashMm = _file.Get(table, Keys.BacklashMm).Value,
            Repeat = ReadRepeat(table),
        };
    }

    private Repeatability? ReadRepeat(string table)
    {
        var readings = _file.Get(table, Keys.RepeatReadings);
        var (mean, deviation) = (_file.Get(table, Keys.RepeatMeanMm), _file.Get(table, Keys.RepeatDeviationMm));
        _checks.ScatterHasReadings(table, readings, mean, deviation);
        return readings.Value == 0 ? null : new Repeatability(readings.Value, mean.Value, deviation.Value);
    }

    private HeadTool ReadHead(string table, Axis x, Axis y)
    {
        if (!_file.Require(table)) return new HeadTool.Dot(default, 0, 0);

        var kind = _file.Get(table, Keys.Kind);
        var offset = _file.Get(table, Keys.OffsetMm);
        if (offset.Good) _checks.CarriageStaysClear(table, offset, x, y);
        if (!kind.Good) return new HeadTool.Dot(default, 0, 0);
        if (kind.Value == HeadKind.Dot)
        {
            _file.Forbid(table, Keys.LowerSeconds, "a dot head is not lowered");
            _file.Forbid(table, Keys.LiftSeconds, "a dot head is not lifted");
            return new HeadTool.Dot(Seconds(table, Keys.SecondsPerCell), offset.Value.X, offset.Value.Y);
        }

        _file.Forbid(table, Keys.SecondsPerCell, "a pen does not stop at each cell");
        var (lower, lift) = (Seconds(table, Keys.LowerSeconds), Seconds(table, Keys.LiftSeconds));
        return new HeadTool.Pen(lower, lift, offset.Value.X, offset.Value.Y);
    }

    private TimeSpan Seconds(string table, MachineFileKey<double> key)
    {
        var seconds = _file.Get(table, key);
        return seconds.Good ? TimeSpan.FromSeconds(seconds.Value) : default;
    }

    // Stands for an axis that is not in the file; its gap of 0 keeps the checks on heads away from it.
    private static readonly Axis Nothing = new()
    {
        Cells = 0, PitchMm = 0, StepsPerMm = 0, TopSpeedMmS = 0, AccelMmS2 = 0, ReferenceSpeedMmS = 0,
        Endstop = AxisEnd.Min, EndstopGapMm = 0, BacklashMm = 0,
    };
}

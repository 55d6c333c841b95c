using Bridge.Jobs;

namespace Bridge.Motion.Tests;

/// <summary>Machines with round figures.</summary>
internal static class TestMachines
{
    public static Axis Axis(int cells = 16, double pitch = 10, double speed = 50, double accel = 200, double backlash = 0,
        AxisEnd endstop = AxisEnd.Min) => new()
    {
        Cells = cells, PitchMm = pitch, StepsPerMm = 80, TopSpeedMmS = speed, AccelMmS2 = accel, ReferenceSpeedMmS = speed / 10,
        Endstop = endstop, EndstopGapMm = 5, BacklashMm = backlash,
    };

    public static HeadTool Pen(double x = 0, double y = 0) =>
        new HeadTool.Pen(TimeSpan.FromSeconds(0.25), TimeSpan.FromSeconds(0.125), x, y);

    public static HeadTool Dot(double seconds = 0.5, double x = 0, double y = 0) => new HeadTool.Dot(TimeSpan.FromSeconds(seconds), x, y);

    public static Machine Of(HeadTool a, HeadTool? b = null, Axis? x = null, Axis? y = null, Axis? z = null, RecordWidth? width = null) => new()
    {
        Name = "test", Width = width ?? RecordWidth.Four, StoreBytes = 1 << 20, MayOverprint = true, OverhangCells = 0,
        X = x ?? Axis(), Y = y ?? Axis(), Z = z, A = a, B = b, HeadChange = TimeSpan.FromSeconds(2), Baud = 500_000,
        TimeOuts = new TimeOuts(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(60)), Digest = default,
    };

    public static Image Image(params Record[] records) => Jobs.Image.Of(RecordWidth.Four, [.. records, Record.End]);

    public static List<Act> ActsOf(Machine machine, params Record[] records)
    {
        var reader = new ActingReader(Image(records), machine);
        var all = new List<Act>();
        while (reader.TryNext(out _, out var acts))
            all.AddRange(acts);
        Assert.Null(reader.Fault);
        all.AddRange(reader.AtEnd());
        return all;
    }
}

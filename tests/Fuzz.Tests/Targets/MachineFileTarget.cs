using System.Text;
using Bridge.Jobs;

namespace Fuzz.Tests;

/// <summary>Machine files: a machine that is read keeps to every range, and is the same when it is read again.</summary>
internal sealed class MachineFileTarget : FuzzTarget
{
    protected override IReadOnlyList<byte[]> Corpus { get; } =
        [.. Directory.GetFiles(Path.Combine(Vectors.Root, "examples", "machines"), "*.toml").Order(StringComparer.Ordinal).Select(File.ReadAllBytes)];

    protected override IReadOnlyList<byte[]> Words { get; } = [.. new[]
    {
        "[", "]", "[[", "]]", "{", "}", "=", ".", ",", "\"", "'", "\n", "\r\n", "#", "[axes.x]\n", "[heads.b]\n", "axis_bits = 12\n", "true", "inf", "nan",
        "1979-05-27", "\\u0000", "\"\"\"", "\u202E", "é", "\0", "\"min\"", "0x10", "1_000",
    }.Select(Encoding.UTF8.GetBytes)];

    public override bool Check(byte[] input)
    {
        if (!Reading.IsRead(() => MachineFile.Parse(input, "m.toml"), "m.toml", out var machine))
            return false;
        Assert.Equal(machine, MachineFile.Parse(input, "m.toml"));
        Assert.InRange(machine.Name.Length, 1, 64);
        Assert.InRange(machine.StoreBytes, 3, 16_777_216);
        Assert.InRange(machine.OverhangCells, 0, 1);
        Assert.InRange(machine.Baud, 9600, 1_000_000);
        Assert.InRange(machine.HeadChange.TotalSeconds, 0, 60);
        CheckAxis(machine.X, machine.Width.Places);
        CheckAxis(machine.Y, machine.Width.Places);
        if (machine.Z is { } z)
            CheckAxis(z, Grid.MostLayers);
        return true;
    }

    private static void CheckAxis(Axis axis, int most)
    {
        Assert.InRange(axis.Cells, 1, most);
        Assert.InRange(axis.PitchMm, 0.01, 1000);
        Assert.InRange(axis.StepsPerMm, 0.01, 100_000);
        Assert.InRange(axis.TopSpeedMmS, 0.01, 10_000);
        Assert.InRange(axis.AccelMmS2, 0.1, 1_000_000);
        Assert.InRange(axis.ReferenceSpeedMmS, 0.001, axis.TopSpeedMmS);
        Assert.InRange(axis.EndstopGapMm, double.Epsilon, 1000);
        Assert.InRange(axis.BacklashMm, 0, 10);
    }
}

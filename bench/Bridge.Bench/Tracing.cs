using Bridge.Jobs;

namespace Bridge.Bench;

/// <summary>How long bridge trace takes for a job that fills the gantry's store of 256 bytes and works each of its 4096 cells.</summary>
internal static class Tracing
{
    private const int Strips = 5; // on each of the 16 layers; with four records that wait and the end they are 85

    public static IEnumerable<Figure> Measure()
    {
        var folder = Directory.CreateTempSubdirectory("bridge-bench-");
        try
        {
            var image = Path.Combine(folder.FullName, "full.bin");
            File.WriteAllBytes(image, Full().Bytes.ToArray());
            var machine = Examples.At("examples/machines/desktop-gantry.toml");
            string[] job = ["trace", image, "--raw", "--machine", machine, "--out", Path.Combine(folder.FullName, "full.vcd")];
            yield return Figure.OfSeconds("trace, interpreter", Goal.Below(2), repetitions: 5, () => WholeProgram.Run(folder.FullName, job));
            yield return Figure.OfSeconds("trace, mock device", Goal.Below(2), repetitions: 5,
                () => WholeProgram.Run(folder.FullName, [.. job, "--device", "mock"]));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static Image Full()
    {
        var (width, records) = (RecordWidth.Four, new List<Record>());
        for (var layer = 0; layer < 16; layer++)
            for (var strip = 0; strip < Strips; strip++)
                records.Add(Record.Patch(Head.A, new Cell(0, 3 * strip), 16, strip == Strips - 1 ? 4 : 3, default, rise: layer > 0 && strip == 0));
        for (var wait = 0; wait < 4; wait++)
            records.Add(Record.Wait(width, 1));
        return Image.Of(width, [.. records, Record.End]);
    }
}

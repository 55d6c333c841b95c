using Bridge.Jobs;

namespace Panel.Bench;

/// <summary>A job of many hours: on each layer twelve rows, half of them by each head, and a wait for the operator, again and again.</summary>
internal static class SoakJob
{
    private const int Layers = 4;
    private const int BlocksOfLayer = 3;
    private const int Rows = 12;
    private const int Cells = 16;

    /// <param name="machine">The machine.</param>
    /// <param name="times">How many times each is done again, 1 to 256: some 180 s of the run for each.</param>
    public static byte[] Of(Machine machine, int times)
    {
        var records = new List<Record>();
        for (var layer = 0; layer < Layers; layer++)
            for (var block = 0; block < BlocksOfLayer; block++)
            {
                records.Add(Record.Go(Head.A, new Cell(block, 0), rise: layer > 0 && block == 0));
                for (var y = 0; y < Rows; y++)
                    records.Add(Record.Row(machine.Width, y < Rows / 2 ? Head.A : Head.B, new Cell(y % 2 == 0 ? 0 : Cells - 1, y), y % 2 == 0 ? 0 : 4, Cells));
                records.Add(Record.WaitForOperator());
                records.Add(Record.Again(machine.Width, Rows + 1, times));
            }

        records.Add(Record.End);
        return new JobFile(machine.Grid, machine.Digest, Image.Of(machine.Width, records)).ToBytes();
    }
}

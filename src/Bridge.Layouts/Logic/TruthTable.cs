namespace Bridge.Layouts;

/// <summary>Writes what every control line is for every opcode, as comma-separated values.</summary>
public static class TruthTable
{
    /// <summary>Writes a head, then a row for each opcode: its bits, the highest first, its verb, and 0, 1 or - for each line.</summary>
    public static void Write(ControlLines lines, TextWriter writer)
    {
        writer.WriteLine(string.Join(',', [.. lines.Names.Reverse(), "verb", .. lines.Lines.Select(line => line.Name)]));
        for (var opcode = 0; opcode < 1 << lines.Bits.Count; opcode++)
        {
            var bits = Enumerable.Range(0, lines.Bits.Count).Reverse().Select(bit => $"{opcode >> bit & 1}");
            var values = lines.Lines.Select(line => line.Function[opcode] switch { true => "1", false => "0", null => "-" });
            writer.WriteLine(string.Join(',', [.. bits, lines.VerbOf(opcode)?.Name ?? "", .. values]));
        }
    }
}

using System.CommandLine;
using System.Text;
using Bridge.Layouts;

namespace Bridge.Cli;

/// <summary>bridge logic: the control lines of a layout as least sums of products, and its controller in gates.</summary>
internal static class LogicCommand
{
    public static Command Make(Report report)
    {
        var layout = Arguments.Layout("The layout (TOML).");
        layout.Required = true;
        var table = Arguments.File("--table", "FILE", "Where to write the whole truth table (CSV): a row for each opcode, - where nobody cares.");
        var verilog = Arguments.File("--verilog", "FILE", "Where to write the whole controller as structural Verilog (IEEE 1364).");
        var blif = Arguments.File("--blif", "FILE", "Where to write the whole controller in the Berkeley Logic Interchange Format.");
        var command = new ExampleCommand("logic",
            "Work out what a layout's decoder must be: each control line as the least sum of products, gates counted; and the controller in gates.",
            "bridge logic --layout examples/layouts/built-in-4.toml",
            "bridge logic --layout examples/layouts/rows-only.toml --table rows.csv --verilog rows.v --blif rows.blif")
        {
            layout, table, verilog, blif,
        };
        command.SetAction(parsed =>
        {
            var path = parsed.GetRequiredValue(layout);
            var (rows, gates, tables) = (parsed.GetValue(table), parsed.GetValue(verilog), parsed.GetValue(blif));
            var files = new OutputFiles([path], ("--table", rows), ("--verilog", gates), ("--blif", tables));
            var lines = ControlLines.Of(LayoutFile.Read(path));
            Tell(report, lines);
            var net = ControllerNetlist.Build(lines);
            report.Line($"The whole controller: {string.Join(", ", net.Gates.Where(gate => gate.Inputs.Count > 0).GroupBy(gate => gate.Kind)
                .Select(group => $"{group.Count()} {group.Key.ToString().ToUpperInvariant()}"))}, {Counted.Of(net.FlipFlops.Count(), "flip-flop")}.");
            var contents = new List<ReadOnlyMemory<byte>>();
            if (rows is not null)
                contents.Add(Written(writer => TruthTable.Write(lines, writer)));
            if (gates is not null)
                contents.Add(Written(writer => VerilogWriter.Write(net, $"The controller of the layout {lines.Layout.Name}, in gates.", writer)));
            if (tables is not null)
                contents.Add(Written(writer => BlifWriter.Write(net, $"The controller of the layout {lines.Layout.Name}, in gates.", writer)));
            files.Write(contents);
            foreach (var (name, file) in new[] { ("Truth table", rows), ("Verilog", gates), ("BLIF", tables) })
                if (file is not null)
                    report.Line($"{name}: {file}");
            return ExitCode.Done;
        });
        return command;
    }

    private static void Tell(Report report, ControlLines lines)
    {
        report.Heading($"The decoder of {lines.Layout.Name}");
        report.Line($"Opcode, the highest bit first: {string.Join(' ', lines.Names.Reverse())}. ' is not, a space is and, + is or.");
        foreach (var line in lines.Lines)
            report.Line($"  {line.Name} = {line.Sum.In(lines.Names)}{(line.Sum.IsLeast ? "" : "   (perhaps not the least)")}");
        report.Line("What a line says where it is 1:");
        foreach (var line in lines.Lines)
            report.Line($"  {line.Name.PadRight(lines.Lines.Max(each => each.Name.Length))}  {line.Means}");
        report.Numbers(["line", "products", "literals", "NOT", "AND", "OR", "NAND only", "of two inputs"],
        [
            .. lines.Lines.Select(line => Row(line.Name, [line.Sum])),
            Row("all lines", [.. lines.Lines.Select(line => line.Sum)]),
        ]);
        report.Line("NAND only: gates of any number of inputs, and of two at most, an inverter being one of them. "
            + "What several lines need counts once for all lines.");
    }

    private static string[] Row(string name, IReadOnlyList<SumOfProducts> sums)
    {
        var gates = GateCount.Of(sums);
        var (products, literals) = (sums.SelectMany(sum => sum.Products).Distinct().Count(),
            sums.SelectMany(sum => sum.Products).Distinct().Sum(product => product.Literals(sums[0].Inputs)));
        return [name, $"{products}", $"{literals}", $"{gates.Not}", $"{gates.And}", $"{gates.Or}", $"{gates.Nand}", $"{gates.Nand2}"];
    }

    private static byte[] Written(Action<TextWriter> write)
    {
        using var text = new StringWriter { NewLine = "\n" };
        write(text);
        return Encoding.UTF8.GetBytes(text.ToString().ReplaceLineEndings("\n"));
    }
}

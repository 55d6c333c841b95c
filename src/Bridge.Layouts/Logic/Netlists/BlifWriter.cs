namespace Bridge.Layouts;

/// <summary>Writes a netlist in the Berkeley Logic Interchange Format: a table for each gate, a latch for each flip-flop.</summary>
public static class BlifWriter
{
    /// <summary>Writes it.</summary>
    /// <param name="net">The netlist.</param>
    /// <param name="title">A comment for its head, one line.</param>
    /// <param name="writer">Where it goes.</param>
    public static void Write(Netlist net, string title, TextWriter writer)
    {
        writer.Write($"# {title}\n.model controller\n.inputs clock {string.Join(' ', net.Inputs.SelectMany(NamesOf))}\n");
        writer.Write($".outputs {string.Join(' ', net.Outputs.SelectMany(NamesOf))}\n");
        foreach (var port in net.Inputs)
            foreach (var (name, wire) in NamesOf(port).Zip(port.Wires))
                writer.Write($".names {name} w{wire}\n1 1\n");
        foreach (var gate in net.Gates)
        {
            writer.Write($".names {string.Concat(gate.Inputs.Select(wire => $"w{wire} "))}w{gate.Output}\n");
            foreach (var row in Rows(gate))
                writer.Write($"{row}\n");
        }
        foreach (var register in net.FlipFlops)
            writer.Write($".latch w{register.Input} w{register.Output} re clock 0\n");
        foreach (var port in net.Outputs)
            foreach (var (name, wire) in NamesOf(port).Zip(port.Wires))
                writer.Write($".names w{wire} {name}\n1 1\n");
        writer.Write(".end\n");
    }

    private static IEnumerable<string> Rows(Gate gate) => gate.Kind switch
    {
        GateKind.Zero => [],
        GateKind.One => ["1"],
        GateKind.Not => ["0 1"],
        GateKind.And => [new string('1', gate.Inputs.Count) + " 1"],
        GateKind.Xor => ["10 1", "01 1"],
        _ => gate.Inputs.Select((_, one) => string.Concat(gate.Inputs.Select((_, input) => input == one ? '1' : '-')) + " 1"),
    };

    private static IEnumerable<string> NamesOf(Port port) =>
        port.Wires.Count == 1 ? [port.Name] : port.Wires.Select((_, bit) => $"{port.Name}[{bit}]");
}

namespace Bridge.Layouts;

/// <summary>Writes a netlist as structural Verilog (IEEE 1364): gate primitives, and one module for a flip-flop.</summary>
public static class VerilogWriter
{
    /// <summary>Writes it.</summary>
    /// <param name="net">The netlist.</param>
    /// <param name="title">A comment for its head, one line.</param>
    /// <param name="writer">Where it goes.</param>
    public static void Write(Netlist net, string title, TextWriter writer)
    {
        writer.Write($"""
            // {title}
            module flip_flop (q, d, clock);
              output q;
              input d, clock;
              reg q;
              initial q = 1'b0;
              always @(posedge clock) q <= d;
            endmodule

            module controller (clock, {string.Join(", ", net.Inputs.Concat(net.Outputs).Select(port => port.Name))});
              input clock;

            """);
        foreach (var port in net.Inputs)
            writer.Write($"  input {Range(port)}{port.Name};\n");
        foreach (var port in net.Outputs)
            writer.Write($"  output {Range(port)}{port.Name};\n");
        foreach (var wires in Enumerable.Range(0, net.Wires).Chunk(16))
            writer.Write($"  wire {string.Join(", ", wires.Select(Wire))};\n");
        foreach (var port in net.Inputs)
            WritePort(writer, port, isInput: true);
        foreach (var section in net.Gates.Select(gate => gate.Section).Concat(net.FlipFlops.Select(register => register.Section)).Distinct())
        {
            writer.Write($"\n  // {section}\n");
            foreach (var gate in net.Gates.Where(gate => gate.Section == section))
                writer.Write($"  {NameOf(gate.Kind)} ({string.Join(", ", gate.Inputs.Prepend(gate.Output).Select(Wire))}{Constant(gate.Kind)});\n");
            foreach (var register in net.FlipFlops.Where(register => register.Section == section))
                writer.Write($"  flip_flop f{register.Output} ({Wire(register.Output)}, {Wire(register.Input)}, clock);\n");
        }
        writer.Write("\n  // outputs\n");
        foreach (var port in net.Outputs)
            WritePort(writer, port, isInput: false);
        writer.Write("endmodule\n");
    }

    private static void WritePort(TextWriter writer, Port port, bool isInput)
    {
        for (var bit = 0; bit < port.Wires.Count; bit++)
        {
            var name = port.Wires.Count == 1 ? port.Name : $"{port.Name}[{bit}]";
            writer.Write(isInput ? $"  buf ({Wire(port.Wires[bit])}, {name});\n" : $"  buf ({name}, {Wire(port.Wires[bit])});\n");
        }
    }

    private static string Range(Port port) => port.Wires.Count == 1 ? "" : $"[{port.Wires.Count - 1}:0] ";

    private static string Wire(int wire) => $"w{wire}";

    private static string NameOf(GateKind kind) => kind is GateKind.Zero or GateKind.One ? "buf" : kind.ToString().ToLowerInvariant();

    private static string Constant(GateKind kind) => kind switch { GateKind.Zero => ", 1'b0", GateKind.One => ", 1'b1", _ => "" };
}

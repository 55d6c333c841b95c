namespace Bridge.Layouts.Tests;

/// <summary>Goes through a netlist clock by clock.</summary>
internal sealed class NetlistSimulator(Netlist net) : ClockedController
{
    private readonly bool[] _wires = new bool[net.Wires];
    private readonly List<FlipFlop> _registers = [.. net.FlipFlops];

    protected override void Set(string port, ulong value)
    {
        var wires = net.Inputs.First(input => input.Name == port).Wires;
        for (var bit = 0; bit < wires.Count; bit++)
            _wires[wires[bit]] = (value >> bit & 1) == 1;
    }

    protected override int Get(string port) => net.Outputs.First(output => output.Name == port).Wires.Select((wire, bit) => _wires[wire] ? 1 << bit : 0).Sum();

    protected override void Settle()
    {
        foreach (var gate in net.Gates)
            _wires[gate.Output] = gate.Kind switch
            {
                GateKind.Zero => false,
                GateKind.One => true,
                GateKind.Not => !_wires[gate.Inputs[0]],
                GateKind.And => gate.Inputs.All(wire => _wires[wire]),
                GateKind.Or => gate.Inputs.Any(wire => _wires[wire]),
                _ => _wires[gate.Inputs[0]] != _wires[gate.Inputs[1]],
            };
    }

    protected override void Clock()
    {
        var next = _registers.ConvertAll(register => _wires[register.Input]);
        for (var index = 0; index < next.Count; index++)
            _wires[_registers[index].Output] = next[index];
    }
}

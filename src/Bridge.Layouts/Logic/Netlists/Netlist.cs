using System.Diagnostics;

namespace Bridge.Layouts;

/// <summary>Gates, flip-flops and what joins them. A gate that is there already is not made again, and what is constant becomes no gate.</summary>
public sealed class Netlist
{
    private readonly List<Gate> _gates = [];
    private readonly Dictionary<string, int> _known = [];
    private readonly Dictionary<int, Gate> _drivers = [];
    private readonly List<(int Output, string Section)> _registers = [];
    private readonly Dictionary<int, int> _next = [];
    private int _wires;

    internal Netlist()
    {
        Zero = Add(GateKind.Zero, []);
        One = Add(GateKind.One, []);
    }

    /// <summary>Its gates, each behind those that it reads.</summary>
    public IReadOnlyList<Gate> Gates => _gates;

    /// <summary>Its flip-flops.</summary>
    public IEnumerable<FlipFlop> FlipFlops => _registers.Select(register => new FlipFlop(register.Output, _next[register.Output], register.Section));

    /// <summary>What comes in, the clock apart.</summary>
    public IReadOnlyList<Port> Inputs { get; private set; } = [];

    /// <summary>What goes out.</summary>
    public IReadOnlyList<Port> Outputs { get; private set; } = [];

    /// <summary>How many wires there are; they are numbered from 0.</summary>
    public int Wires => _wires;

    internal int Zero { get; }

    internal int One { get; }

    /// <summary>The part that the next gates belong to.</summary>
    internal string Section { get; set; } = "constants";

    internal int[] Input(string name, int width)
    {
        int[] wires = [.. Enumerable.Range(0, width).Select(_ => _wires++)];
        Inputs = [.. Inputs, new Port(name, wires)];
        return wires;
    }

    internal void Output(string name, params int[] wires) => Outputs = [.. Outputs, new Port(name, wires)];

    internal int[] Register(int width)
    {
        int[] wires = [.. Enumerable.Range(0, width).Select(_ => _wires++)];
        _registers.AddRange(wires.Select(wire => (wire, Section)));
        return wires;
    }

    /// <summary>Says what a register takes over; once for each.</summary>
    internal void Feed(int[] register, int[] next)
    {
        Debug.Assert(register.Length == next.Length, "A register takes as many bits as it has.");
        for (var bit = 0; bit < register.Length; bit++)
            _next.Add(register[bit], next[bit]);
    }

    internal int Not(int wire) => wire == Zero ? One : wire == One ? Zero
        : _drivers.GetValueOrDefault(wire) is { Kind: GateKind.Not } inverted ? inverted.Inputs[0] : Add(GateKind.Not, [wire]);

    internal int And(params IEnumerable<int> wires) => Join(GateKind.And, wires, One, Zero);

    internal int Or(params IEnumerable<int> wires) => Join(GateKind.Or, wires, Zero, One);

    internal int Xor(int a, int b) => a == Zero ? b : b == Zero ? a : a == One ? Not(b) : b == One ? Not(a) : a == b ? Zero
        : Add(GateKind.Xor, [Math.Min(a, b), Math.Max(a, b)]);

    private int Join(GateKind kind, IEnumerable<int> wires, int nothing, int all)
    {
        int[] read = [.. wires.Where(wire => wire != nothing).Distinct().Order()];
        return read.Contains(all) ? all : read.Length switch
        {
            0 => nothing,
            1 => read[0],
            _ => Add(kind, read),
        };
    }

    private int Add(GateKind kind, int[] inputs)
    {
        var key = $"{kind} {string.Join(' ', inputs)}";
        if (_known.TryGetValue(key, out var known))
            return known;
        var gate = new Gate(kind, _wires++, inputs, Section);
        _gates.Add(gate);
        _drivers.Add(gate.Output, gate);
        _known.Add(key, gate.Output);
        return gate.Output;
    }
}

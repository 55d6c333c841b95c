namespace Bridge.Layouts;

/// <summary>The decoder in gates: each control line by its least sum, and the numbers of a record by role.</summary>
internal sealed class DecoderNetlist
{
    private readonly Netlist _net;
    private readonly ControlLines _lines;
    private readonly int[] _record;
    private readonly Dictionary<string, int> _wires = [];

    /// <param name="net">Where the gates go.</param>
    /// <param name="lines">The control lines.</param>
    /// <param name="record">The record's bits, the lowest first.</param>
    public DecoderNetlist(Netlist net, ControlLines lines, int[] record)
    {
        (_net, _lines, _record) = (net, lines, record);
        net.Section = "decoder";
        foreach (var line in lines.Lines)
            _wires.Add(line.Name, SumOf(line.Sum));
        net.Section = "bits that must be 0";
        Fault = net.Or(_wires["fault"], net.Or(lines.Layout.Verbs.Select(Strays)));
        net.Section = "numbers of a record";
    }

    /// <summary>1 for a record that is no verb's.</summary>
    public int Fault { get; }

    public IEnumerable<KeyValuePair<string, int>> Lines => _wires;

    /// <summary>A control line.</summary>
    public int this[string line] => _wires[line];

    /// <summary>1 where the record's verb says something of a role.</summary>
    public int Has(LayoutRole role, Func<LayoutVerb, bool>? of = null) =>
        _net.Or(_lines.Layout.Verbs.Where(verb => verb.Has(role) && of?.Invoke(verb) != false).Select(verb => this[$"is_{verb.Name}"]));

    /// <summary>The number of a role, 0 where the verb does not say it; a count is less one.</summary>
    public int[] Number(LayoutRole role, int width)
    {
        var number = _net.Constant(0, width);
        foreach (var group in _lines.Layout.Verbs.Where(verb => verb.Has(role)).GroupBy(verb => (SourceOf(verb.Sources[role]), IsSigned(verb, role))))
        {
            var open = _net.Or(group.Select(verb => this[$"is_{verb.Name}"]));
            number = _net.Or(number, _net.Gate(open, Read(group.First().Sources[role], role, width, group.Key.Item2)));
        }
        return number;
    }

    /// <summary>The widest number of a role, 0 where no verb says it.</summary>
    public int WidthOf(LayoutRole role) => _lines.Layout.Verbs.Where(verb => verb.Has(role)).Select(verb => verb.Sources[role])
        .Select(source => source.Always is { } always ? BitsFor(always) : source.Width).DefaultIfEmpty(0).Max();

    private static int BitsFor(int number) => 32 - System.Numerics.BitOperations.LeadingZeroCount((uint)number);

    private static string SourceOf(LayoutSource source) => source.Always is { } always ? $"={always}"
        : string.Join(' ', source.Fields.Select(part => part.Name));

    // A distance in two's complement.
    private bool IsSigned(LayoutVerb verb, LayoutRole role) => _lines.Layout.IsRelative && role is (LayoutRole.X or LayoutRole.Y)
        && !LayoutNumbers.HasSign(verb, role == LayoutRole.X ? LayoutRole.SignX : LayoutRole.SignY);

    private int[] Read(LayoutSource source, LayoutRole role, int width, bool isSigned)
    {
        if (source.Always is { } always)
            return _net.Constant(LayoutActs.IsCounted(role) ? always - 1 : always, width);
        int[] bits = [.. source.Fields.Reverse()
            .SelectMany(part => part.Bits.Reverse().Select(bit => part.IsInverted ? _net.Not(_record[bit]) : _record[bit]))];
        var number = _net.Wide(bits, width, isSigned);
        return LayoutActs.IsCounted(role) && _lines.Layout.CountsFrom == 0 ? _net.Decrement(number) : number;
    }

    private int SumOf(SumOfProducts sum) => _net.Or(sum.Products.Select(product => _net.And(Enumerable.Range(0, sum.Inputs)
        .Where(input => (product.Free >> input & 1) == 0)
        .Select(input => (product.Value >> input & 1) == 1 ? _record[_lines.Bits[input]] : _net.Not(_record[_lines.Bits[input]])))));

    private int Strays(LayoutVerb verb)
    {
        var unused = verb.Fixed & ~_lines.Opcode;
        var set = _net.Or(Enumerable.Range(0, _record.Length).Where(bit => (unused >> bit & 1) == 1).Select(bit => _record[bit]));
        return _net.And(this[$"is_{verb.Name}"], set);
    }
}

namespace Bridge.Layouts.Tests;

/// <summary>A controller as a BLIF file says it: tables of one output in the order of the file, and latches.</summary>
internal sealed class Blif : ClockedController
{
    private readonly List<(string[] Inputs, string Output, List<string> Rows)> _tables = [];
    private readonly List<(string Input, string Output)> _latches = [];
    private readonly Dictionary<string, bool> _values = [];
    private readonly HashSet<string> _outputs = [];

    public Blif(string text)
    {
        foreach (var words in text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(' ')))
            switch (words[0])
            {
                case ".names":
                    _tables.Add((words[1..^1], words[^1], []));
                    break;
                case ".latch":
                    Assert.Equal(["re", "clock", "0"], words[3..]);
                    _latches.Add((words[1], words[2]));
                    break;
                case ".outputs":
                    _outputs.UnionWith(words[1..]);
                    break;
                case "#" or ".model" or ".inputs" or ".end":
                    break;
                default:
                    _tables[^1].Rows.Add(string.Concat(words));
                    break;
            }
    }

    protected override void Set(string port, ulong value)
    {
        _values[port] = (value & 1) == 1;
        for (var bit = 0; bit < 64; bit++)
            _values[$"{port}[{bit}]"] = (value >> bit & 1) == 1;
    }

    protected override int Get(string port) => _outputs.Contains(port) ? Bit(port)
        : Enumerable.Range(0, 16).TakeWhile(bit => _outputs.Contains($"{port}[{bit}]")).Sum(bit => Bit($"{port}[{bit}]") << bit);

    protected override void Settle()
    {
        foreach (var (inputs, output, rows) in _tables)
            _values[output] = rows.Exists(row => inputs.Select((input, at) => row[at] == '-' || row[at] - '0' == Bit(input)).All(isMet => isMet));
    }

    protected override void Clock()
    {
        var next = _latches.ConvertAll(latch => Bit(latch.Input) == 1);
        for (var index = 0; index < next.Count; index++)
            _values[_latches[index].Output] = next[index];
    }

    private int Bit(string name) => _values.GetValueOrDefault(name) ? 1 : 0;
}

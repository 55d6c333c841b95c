using System.Text;

namespace Bridge.Teaching;

/// <summary>
/// Writes a value change dump (IEEE Std 1364-2005, clause 18): a list of variables, then at each time those that changed. Times are in ticks of 100 ns.
/// </summary>
internal sealed class VcdWriter : IDisposable
{
    private const char FirstCode = '!'; // identifier codes are printable characters, ! to ~

    private readonly StreamWriter _output;
    private readonly (char Code, int Width)[] _lines = new (char, int)[Enum.GetValues<TraceSignal>().Length]; // width 0: not listed
    private readonly long[] _values = new long[Enum.GetValues<TraceSignal>().Length];
    private long _ticks;

    /// <summary>Writes the head; every variable is 0 at first.</summary>
    /// <param name="stream">Where it goes; it stays open.</param>
    /// <param name="comment">A line about where it comes from.</param>
    /// <param name="signals">The variables, each with its name and its width in bits.</param>
    public VcdWriter(Stream stream, string comment, IEnumerable<(TraceSignal Signal, string Name, int Width)> signals)
    {
        _output = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), bufferSize: 1 << 16, leaveOpen: true) { NewLine = "\n" };
        _output.WriteLine($"$comment {comment.Replace("$", "", StringComparison.Ordinal)} $end");
        _output.WriteLine("$timescale 100 ns $end\n$scope module machine $end");
        var code = FirstCode;
        foreach (var (signal, name, width) in signals)
        {
            _lines[(int)signal] = (code, width);
            _output.WriteLine($"$var wire {width} {code++} {name} $end");
        }

        _output.WriteLine("$upscope $end\n$enddefinitions $end\n#0\n$dumpvars");
        foreach (var line in _lines.Where(line => line.Width > 0))
            _output.WriteLine(line.Width == 1 ? $"0{line.Code}" : $"b0 {line.Code}");
        _output.WriteLine("$end");
    }

    /// <summary>A variable has a value from a time on, which is not before the last; one that is not listed is left out.</summary>
    public void Set(TraceSignal signal, long value, long ticks)
    {
        var (code, width) = _lines[(int)signal];
        if (width == 0 || _values[(int)signal] == value)
            return;
        _values[(int)signal] = value;
        MoveTo(ticks);
        if (width == 1)
        {
            _output.Write(value == 0 ? '0' : '1');
        }
        else
        {
            _output.Write('b');
            _output.Write(value.ToString("b", null));
            _output.Write(' ');
        }

        _output.Write(code);
        _output.Write('\n');
    }

    /// <summary>Nothing more changes up to a time.</summary>
    public void MoveTo(long ticks)
    {
        if (ticks <= _ticks)
            return;
        _ticks = ticks;
        _output.Write('#');
        _output.Write(ticks);
        _output.Write('\n');
    }

    public void Dispose() => _output.Dispose();
}

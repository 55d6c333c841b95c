using System.Globalization;
using System.Text;

namespace Bridge.Teaching;

/// <summary>
/// Writes a value change dump (IEEE Std 1364-2005, clause 18): a list of variables, then at each time those that changed. Times are in ticks of 100 ns.
/// </summary>
internal sealed class VcdWriter : IDisposable
{
    private const char FirstCode = '!'; // identifier codes are printable characters, ! to ~

    private const int MostOfLine = 96; // a time, or 64 digits with their code

    private readonly Stream _stream;
    private readonly byte[] _buffer = new byte[1 << 16]; // a trace has millions of lines: they are written as octets, with nothing left behind
    private readonly (char Code, int Width)[] _lines = new (char, int)[Enum.GetValues<TraceSignal>().Length]; // width 0: not listed
    private readonly long[] _values = new long[Enum.GetValues<TraceSignal>().Length];
    private int _length;
    private long _ticks;

    /// <summary>Writes the head; every variable is 0 at first.</summary>
    /// <param name="stream">Where it goes; it stays open.</param>
    /// <param name="comment">A line about where it comes from.</param>
    /// <param name="signals">The variables, each with its name and its width in bits.</param>
    public VcdWriter(Stream stream, string comment, IEnumerable<(TraceSignal Signal, string Name, int Width)> signals)
    {
        _stream = stream;
        using var head = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true) { NewLine = "\n" };
        head.WriteLine($"$comment {comment.Replace("$", "", StringComparison.Ordinal)} $end");
        head.WriteLine("$timescale 100 ns $end\n$scope module machine $end");
        var code = FirstCode;
        foreach (var (signal, name, width) in signals)
        {
            _lines[(int)signal] = (code, width);
            head.WriteLine($"$var wire {width} {code++} {name} $end");
        }

        head.WriteLine("$upscope $end\n$enddefinitions $end\n#0\n$dumpvars");
        foreach (var line in _lines.Where(line => line.Width > 0))
            head.WriteLine(line.Width == 1 ? $"0{line.Code}" : $"b0 {line.Code}");
        head.WriteLine("$end");
    }

    /// <summary>A variable has a value from a time on, which is not before the last; one that is not listed is left out.</summary>
    public void Set(TraceSignal signal, long value, long ticks)
    {
        var (code, width) = _lines[(int)signal];
        if (width == 0 || _values[(int)signal] == value)
            return;
        _values[(int)signal] = value;
        MoveTo(ticks);
        var line = Room();
        var digits = 0;
        if (width == 1)
        {
            line[0] = (byte)(value == 0 ? '0' : '1');
        }
        else
        {
            line[0] = (byte)'b';
            value.TryFormat(line[1..], out digits, "b", CultureInfo.InvariantCulture);
            line[++digits] = (byte)' ';
        }

        line[digits + 1] = (byte)code;
        line[digits + 2] = (byte)'\n';
        _length += digits + 3;
    }

    /// <summary>Nothing more changes up to a time.</summary>
    public void MoveTo(long ticks)
    {
        if (ticks <= _ticks)
            return;
        _ticks = ticks;
        var line = Room();
        line[0] = (byte)'#';
        ticks.TryFormat(line[1..], out var digits, default, CultureInfo.InvariantCulture);
        line[digits + 1] = (byte)'\n';
        _length += digits + 2;
    }

    public void Dispose() => Flush();

    // Of at least a line.
    private Span<byte> Room()
    {
        if (_buffer.Length - _length < MostOfLine)
            Flush();
        return _buffer.AsSpan(_length);
    }

    private void Flush()
    {
        _stream.Write(_buffer, 0, _length);
        _length = 0;
    }
}

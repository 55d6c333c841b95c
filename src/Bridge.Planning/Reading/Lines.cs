namespace Bridge.Planning;

/// <summary>The lines of a text, numbered from 1. They end with LF or CR LF; a final line end starts no further line.</summary>
internal ref struct Lines
{
    private ReadOnlySpan<byte> _rest;

    /// <summary>Starts before the first line; a UTF-8 byte order mark is passed over.</summary>
    public Lines(ReadOnlySpan<byte> text) => _rest = text.StartsWith("\uFEFF"u8) ? text[3..] : text;

    /// <summary>The present line without its end.</summary>
    public ReadOnlySpan<byte> Text { get; private set; }

    /// <summary>The number of the present line.</summary>
    public int Number { get; private set; }

    /// <summary>Goes to the next line; false when there is none.</summary>
    public bool Next()
    {
        if (_rest.IsEmpty)
            return false;
        var end = _rest.IndexOf((byte)'\n');
        Text = end < 0 ? _rest : _rest[..end];
        Text = Text is [.., (byte)'\r'] && end >= 0 ? Text[..^1] : Text;
        _rest = end < 0 ? default : _rest[(end + 1)..];
        Number++;
        return true;
    }
}

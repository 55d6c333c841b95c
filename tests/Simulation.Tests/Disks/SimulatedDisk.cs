namespace Simulation.Tests;

/// <summary>
/// A file on a disk that can be full, and that a host can die upon: before a write, half-way through it, or after it. A host that loses its
/// power loses what had not been flushed. Closing it closes nothing: the next host finds what is left.
/// </summary>
internal sealed class SimulatedDisk(Random random) : Stream
{
    private readonly MemoryStream _file = new();
    private byte[] _flushed = [];

    /// <summary>What is in the file now.</summary>
    public byte[] Contents => _file.ToArray();

    /// <summary>Writes that were begun.</summary>
    public int Writes { get; private set; }

    /// <summary>Whether there is no room; a write then leaves what fits, and fails.</summary>
    public bool IsFull { get; set; }

    /// <summary>Asked at each write, by its number from 1: how the host dies on it, if it does.</summary>
    public Func<int, WriteDeath> DiesAt { get; set; } = _ => WriteDeath.None;

    public override bool CanRead => false;

    public override bool CanSeek => true;

    public override bool CanWrite => true;

    public override long Length => _file.Length;

    public override long Position { get => _file.Position; set => _file.Position = value; }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        var death = DiesAt(++Writes);
        var fits = death == WriteDeath.Before ? 0 : death == WriteDeath.HalfWay || IsFull ? random.Next(buffer.Length) : buffer.Length;
        _file.Write(buffer[..fits]);
        if (death == WriteDeath.After)
            Flush();
        if (death != WriteDeath.None)
            throw new HostDiedException();
        if (fits < buffer.Length)
            throw new IOException("No space left on device");
    }

    public override void SetLength(long value) => _file.SetLength(value);

    public override void Flush() => _flushed = _file.ToArray();

    /// <summary>The host's power fails: of what was not flushed, only a part may be there.</summary>
    public void LosePower()
    {
        var (now, kept) = (_file.ToArray(), _flushed);
        _file.SetLength(0);
        _file.Write(kept);
        if (now.Length > kept.Length)
            _file.Write(now.AsSpan(kept.Length, random.Next(now.Length - kept.Length + 1)));
        Flush();
    }

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => _file.Seek(offset, origin);
}

/// <summary>How a host dies on a write.</summary>
internal enum WriteDeath
{
    /// <summary>It does not.</summary>
    None,

    /// <summary>Nothing was written.</summary>
    Before,

    /// <summary>A part was written.</summary>
    HalfWay,

    /// <summary>All was written, and the host never learned of it.</summary>
    After,
}

/// <summary>The host's program is gone from one moment to the next.</summary>
internal sealed class HostDiedException : Exception;

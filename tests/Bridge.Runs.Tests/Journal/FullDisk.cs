namespace Bridge.Runs.Tests;

/// <summary>A file on a disk with so much room: a write that does not fit leaves what fitted, and fails, as a real one does.</summary>
internal sealed class FullDisk(long room) : Stream
{
    private readonly MemoryStream _file = new();

    public long Room { get; set; } = room;

    public byte[] Contents => _file.ToArray();

    public override bool CanRead => false;

    public override bool CanSeek => true;

    public override bool CanWrite => true;

    public override long Length => _file.Length;

    public override long Position { get => _file.Position; set => _file.Position = value; }

    public override void Write(byte[] buffer, int offset, int count)
    {
        var fits = (int)Math.Clamp(Room - _file.Length, 0, count);
        _file.Write(buffer, offset, fits);
        if (fits < count)
            throw new IOException("No space left on device");
    }

    public override void SetLength(long value) => _file.SetLength(value);

    public override void Flush()
    {
    }

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => _file.Seek(offset, origin);
}

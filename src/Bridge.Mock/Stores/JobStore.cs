using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>The device's lasting memory for one job and the machine that it is for. It is written at once and never busy.</summary>
internal sealed class JobStore
{
    /// <summary>The longest image.</summary>
    public const ushort Bytes = 4096;

    private readonly record struct Held(byte[] Octets, DigestPrefix Digest, RecordWidth Width);

    private Held? _stored;
    private Held? _written;
    private int _taken;

    /// <summary>What a host has asked to read, until it is sent.</summary>
    public StoreRead? Asked { get; private set; }

    public Answer Begin(ushort length, DigestPrefix digest, RecordWidth width)
    {
        if (length > Bytes)
            return Answer.StoreFull;
        (_written, _taken) = (new Held(new byte[length], digest, width), 0);
        return Answer.Accepted;
    }

    public Answer Take(ushort offset, ReadOnlySpan<byte> octets)
    {
        if (_written is not { } written)
            return Answer.WrongState;
        if (offset != _taken)
            return Answer.IndexMismatch;
        if (octets.Length > written.Octets.Length - _taken)
            return Answer.StoreFull;
        octets.CopyTo(written.Octets.AsSpan(_taken));
        _taken += octets.Length;
        return Answer.Accepted;
    }

    public Answer Commit(ushort imageFcs)
    {
        if (_written is not { } written)
            return Answer.WrongState;
        if (_taken != written.Octets.Length)
            return Answer.IndexMismatch;
        if (Fcs16.Of(written.Octets) != imageFcs)
            return Answer.StoreDamaged;
        if (!StoredRecords.AreGood(written.Octets, written.Width))
            return Answer.BadRecord;
        (_stored, _written) = (written, null);
        return Answer.Accepted;
    }

    public Answer Ask(StoreRead read)
    {
        if (_stored is not { } stored)
            return Answer.StoreBlank;
        if (read.Offset + read.Count > stored.Octets.Length)
            return Answer.BadValue;
        Asked = read;
        return Answer.Accepted;
    }

    /// <summary>What was asked for.</summary>
    public Stored Reading()
    {
        var (read, octets) = (Asked!.Value, _stored!.Value.Octets);
        Asked = null;
        return new Stored((ushort)octets.Length, read.Offset, octets.AsSpan(read.Offset, read.Count));
    }

    /// <summary>The stored job, if it is for this machine.</summary>
    public Answer Find(DigestPrefix digest, RecordWidth width, out Image? image)
    {
        image = null;
        if (_stored is not { } stored)
            return Answer.StoreBlank;
        if (stored.Digest != digest || stored.Width != width)
            return Answer.StoreForeign;
        image = StoredRecords.ImageOf(stored.Octets, width);
        _written = null;
        return Answer.Accepted;
    }
}

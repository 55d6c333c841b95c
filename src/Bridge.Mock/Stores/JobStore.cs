using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>The device's lasting memory for one job and the machine that it is for. It is written at once and never busy.</summary>
internal sealed class JobStore
{
    /// <summary>The longest image.</summary>
    public const ushort Bytes = 4096;

    private readonly record struct Held(byte[] Octets, Bridge.Wire.MachineDigest Digest, RecordWidth Width);

    private Held? _stored;
    private Held? _written;
    private int _taken;

    /// <summary>What a host has asked to read, until it is sent.</summary>
    public StoreRead? Asked { get; private set; }

    public Refusal Begin(ushort length, Bridge.Wire.MachineDigest digest, RecordWidth width)
    {
        if (length > Bytes)
            return Refusal.StoreFull;
        (_written, _taken) = (new Held(new byte[length], digest, width), 0);
        return Refusal.None;
    }

    public Refusal Take(ushort offset, ReadOnlySpan<byte> octets)
    {
        if (_written is not { } written)
            return Refusal.WrongState;
        if (offset != _taken)
            return Refusal.IndexMismatch;
        if (octets.Length > written.Octets.Length - _taken)
            return Refusal.StoreFull;
        octets.CopyTo(written.Octets.AsSpan(_taken));
        _taken += octets.Length;
        return Refusal.None;
    }

    public Refusal Commit(ushort imageFcs)
    {
        if (_written is not { } written)
            return Refusal.WrongState;
        if (_taken != written.Octets.Length)
            return Refusal.IndexMismatch;
        if (Fcs16.Of(written.Octets) != imageFcs)
            return Refusal.StoreDamaged;
        if (!StoredRecords.AreGood(written.Octets, written.Width))
            return Refusal.BadRecord;
        (_stored, _written) = (written, null);
        return Refusal.None;
    }

    public Refusal Ask(StoreRead read)
    {
        if (_stored is not { } stored)
            return Refusal.StoreBlank;
        if (read.Offset + read.Count > stored.Octets.Length)
            return Refusal.BadValue;
        Asked = read;
        return Refusal.None;
    }

    /// <summary>What was asked for.</summary>
    public Stored Answer()
    {
        var (read, octets) = (Asked!.Value, _stored!.Value.Octets);
        Asked = null;
        return new Stored((ushort)octets.Length, read.Offset, octets.AsSpan(read.Offset, read.Count));
    }

    /// <summary>The stored job, if it is for this machine.</summary>
    public Refusal Find(Bridge.Wire.MachineDigest digest, RecordWidth width, out Image? image)
    {
        image = null;
        if (_stored is not { } stored)
            return Refusal.StoreBlank;
        if (stored.Digest != digest || stored.Width != width)
            return Refusal.StoreForeign;
        image = StoredRecords.ImageOf(stored.Octets, width);
        _written = null;
        return Refusal.None;
    }
}

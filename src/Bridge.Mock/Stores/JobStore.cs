using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>
/// The device's lasting memory for one job and the machine that it is for. Each octet takes its time to be written, and meanwhile the memory is
/// busy. Times are in seconds.
/// </summary>
internal sealed class JobStore
{
    /// <summary>The longest image.</summary>
    public const ushort Bytes = 4096;

    private const double SecondsPerOctet = 0.0034; // an EEPROM write of the ATmega328P, 3.4 ms (datasheet)
    private const int HeadOctets = 127;            // what stands before the image: marks, its length, the machine
    private const int SealOctets = 3;              // what is written last: the check sequence and the first mark

    private sealed record Held(byte[] Octets, DeviceSetup Setup);

    private enum Part
    {
        Head,
        Image,
        Seal,
    }

    private Held? _stored;
    private Held? _before; // what was stored before, until the seal is written
    private Held? _written;
    private int _taken;
    private Part _part; // what is being written, or was last
    private double _busyUntil = double.NegativeInfinity;

    /// <summary>What a host has asked to read, until it is sent.</summary>
    public StoreRead? Asked { get; private set; }

    /// <summary>Begins to write a job for a machine; what was begun before is dropped.</summary>
    public Answer Begin(ushort length, DeviceSetup setup, double now)
    {
        if (length > Bytes)
            return Answer.StoreFull;
        if (now < _busyUntil && _part != Part.Image) // writing the image may be broken off
            return Answer.StoreBusy;
        (_written, _taken) = (new Held(new byte[length], setup.Copy()), 0);
        Write(Part.Head, HeadOctets, now);
        return Answer.Accepted;
    }

    /// <summary>Takes the next octets of the image.</summary>
    public Answer Take(ushort offset, ReadOnlySpan<byte> octets, double now)
    {
        if (now < _busyUntil)
            return Answer.StoreBusy;
        if (_written is not { } written)
            return Answer.WrongState;
        if (offset != _taken)
            return Answer.IndexMismatch;
        if (octets.Length > written.Octets.Length - _taken)
            return Answer.StoreFull;
        octets.CopyTo(written.Octets.AsSpan(_taken));
        _taken += octets.Length;
        Write(Part.Image, octets.Length, now);
        return Answer.Accepted;
    }

    /// <summary>Makes what has been written the stored job, if it is one.</summary>
    public Answer Commit(ushort imageFcs, double now)
    {
        if (now < _busyUntil)
            return Answer.StoreBusy;
        if (_written is not { } written)
            return Answer.WrongState;
        if (_taken != written.Octets.Length)
            return Answer.IndexMismatch;
        if (Fcs16.Of(written.Octets) != imageFcs)
            return Answer.StoreDamaged;
        if (!StoredRecords.AreGood(written.Octets, written.Setup.Width))
            return Answer.BadRecord;
        (_before, _stored, _written) = (_stored, written, null);
        Write(Part.Seal, SealOctets, now);
        return Answer.Accepted;
    }

    /// <summary>Drops a job that was begun and not committed: what is written of the machine is of one machine.</summary>
    public void Drop()
    {
        if (_written is not null)
            (_written, _busyUntil) = (null, double.NegativeInfinity);
    }

    /// <summary>Notes what a host wants to read.</summary>
    public Answer Ask(StoreRead read, double now)
    {
        if (now < _busyUntil)
            return Answer.StoreBusy;
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
        var (read, octets) = (Asked!.Value, _stored!.Octets);
        Asked = null;
        return new Stored((ushort)octets.Length, read.Offset, octets.AsSpan(read.Offset, read.Count));
    }

    /// <summary>The machine that the stored job is for.</summary>
    public Answer FindSetup(double now, out DeviceSetup? setup)
    {
        setup = now < _busyUntil ? null : _stored?.Setup.Copy();
        return now < _busyUntil ? Answer.StoreBusy : setup is null ? Answer.StoreBlank : Answer.Accepted;
    }

    /// <summary>The stored job, if it is for this machine; a job that was begun and not committed is dropped for it.</summary>
    public Answer Find(DeviceSetup setup, double now, out Image? image)
    {
        image = null;
        if (now < _busyUntil)
            return Answer.StoreBusy;
        if (_stored is not { } stored)
            return Answer.StoreBlank;
        if (stored.Setup.Digest != setup.Digest || stored.Setup.Width != setup.Width)
            return Answer.StoreForeign;
        image = StoredRecords.ImageOf(stored.Octets, setup.Width);
        _written = null;
        return Answer.Accepted;
    }

    /// <summary>Power is gone for a moment: what was not sealed is lost, and so is what was asked for.</summary>
    public void LosePower(double now)
    {
        if (now < _busyUntil && _part == Part.Seal)
            _stored = _before;
        (_written, Asked) = (null, null);
        _busyUntil = double.NegativeInfinity;
    }

    private void Write(Part part, int octets, double now) => (_part, _busyUntil) = (part, now + octets * SecondsPerOctet);
}

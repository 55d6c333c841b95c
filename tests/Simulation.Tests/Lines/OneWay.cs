using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>One direction of a line: frames go in, and come out as late as the baud rate and the delay make them, or as the noise leaves them.</summary>
internal sealed class OneWay(Noise noise, long delayMicroseconds, Random random)
{
    private const int OctetMicroseconds = 20; // ten bits at 500 000 baud
    private const int LongestBurst = 12;

    private readonly PriorityQueue<byte[], (long At, long Order)> _onTheWay = new();
    private long _freeAt;
    private long _order;
    private long _stalledUntil;
    private long _deafUntil;

    /// <summary>How often the noise struck.</summary>
    public int Damages { get; private set; }

    /// <summary>Sends a frame, or whatever octets.</summary>
    public void Send(ReadOnlySpan<byte> frame, long now)
    {
        _freeAt = Math.Max(Math.Max(now, _freeAt), _stalledUntil) + frame.Length * OctetMicroseconds;
        if (now < _deafUntil || Strikes(noise.Drop))
            return;
        var octets = Damaged(frame.ToArray());
        var at = _freeAt + delayMicroseconds;
        Enqueue(octets, Strikes(noise.Late) ? at + random.Next(200, 60_000) : at);
        if (Strikes(noise.Double))
            Enqueue(octets, at);
        if (Strikes(noise.Echo))
            Enqueue(octets, at + random.Next(10_000, 400_000));
    }

    /// <summary>Takes what has arrived by now, or null.</summary>
    public byte[]? Receive(long now) => now >= _stalledUntil && _onTheWay.TryPeek(out _, out var first) && first.At <= now ? _onTheWay.Dequeue() : null;

    public void StallUntil(long time) => _stalledUntil = time;

    public void LoseAllUntil(long time) => _deafUntil = time;

    /// <summary>Loses all that is on its way, but for a part of what was coming out just now.</summary>
    public byte[] Cut()
    {
        var part = _onTheWay.TryDequeue(out var first, out _) ? first[..random.Next(first.Length)] : [];
        _onTheWay.Clear();
        return part;
    }

    private void Enqueue(byte[] octets, long at) => _onTheWay.Enqueue(octets, (at, _order++));

    private byte[] Damaged(byte[] octets)
    {
        if (Strikes(noise.Forged))
            octets = Forged(octets);
        if (Strikes(noise.Flip))
            octets[random.Next(octets.Length)] ^= (byte)(1 << random.Next(8));
        if (Strikes(noise.Burst))
            Burst(octets);
        if (Strikes(noise.LostOctet))
            octets = [.. octets.Where((_, index) => index != octets.Length / 2)];
        if (octets.Length > 0 && Strikes(noise.DoubledOctet))
            octets = [.. octets.Take(octets.Length / 2), octets[octets.Length / 2], .. octets.Skip(octets.Length / 2)];
        return octets;
    }

    private void Burst(byte[] octets)
    {
        var first = random.Next(octets.Length);
        for (var index = first; index < Math.Min(octets.Length, first + 1 + random.Next(LongestBurst)); index++)
            octets[index] = NoStop((byte)random.Next(256));
    }

    // Two octets that noise makes 7F are a STOP, and rightly: that is tried by itself. Here it would only end most runs.
    private static byte NoStop(byte octet) => octet == FrameFormat.Reserved ? (byte)0 : octet;

    private byte[] Forged(byte[] octets)
    {
        var decoder = new FrameDecoder();
        foreach (var octet in octets)
            if (decoder.Push(octet) == DecoderEvent.Frame)
            {
                var frame = decoder.Frame.ToArray();
                frame[random.Next(frame.Length)] ^= (byte)(1 << random.Next(8));
                var line = new byte[FrameFormat.MaxOnLine];
                return line[..FrameEncoder.Encode(frame, line)];
            }

        return octets;
    }

    private bool Strikes(double chance)
    {
        if (chance == 0 || random.NextDouble() >= chance)
            return false;
        Damages++;
        return true;
    }
}

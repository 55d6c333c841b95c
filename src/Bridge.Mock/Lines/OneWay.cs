using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>
/// One direction of a simulated line: octets go in, and come out whole frames at a time, as late as the baud rate makes them,
/// or damaged. Bounded to a million octets on their way.
/// </summary>
internal sealed class OneWay(int baud, TimeSpan delay, LineNoise noise, Random random)
{
    private const int BitsPerOctet = 10; // a start bit, eight bits, a stop bit
    private const int MostOctets = 1_000_000;

    private readonly Queue<(TimeSpan LeavesAt, TimeSpan At, byte[] Octets)> _onTheWay = new();
    private TimeSpan _freeAt;
    private TimeSpan _lastAt;
    private int _octets;

    /// <summary>When the next octets arrive; null where none are on their way.</summary>
    public TimeSpan? NextArrival => _onTheWay.TryPeek(out var next) ? next.At : null;

    /// <summary>Sends octets, which wait for those before them.</summary>
    public void Send(ReadOnlySpan<byte> octets, TimeSpan now)
    {
        if (now > _freeAt)
            _freeAt = now;
        while (!octets.IsEmpty)
        {
            var length = FrameLength(octets);
            SendFrame(octets[..length].ToArray());
            octets = octets[length..];
        }
    }

    /// <summary>Takes octets that have arrived by now; null where there are none.</summary>
    public byte[]? Receive(TimeSpan now)
    {
        if (NextArrival is not { } at || at > now)
            return null;
        var octets = _onTheWay.Dequeue().Octets;
        _octets -= octets.Length;
        return octets;
    }

    /// <summary>Loses what has not begun to leave; the frame that is leaving leaves whole.</summary>
    public void DropWaiting(TimeSpan now)
    {
        var kept = _onTheWay.Where(each => each.LeavesAt <= now).ToArray();
        Clear();
        foreach (var each in kept)
        {
            _onTheWay.Enqueue(each);
            _octets += each.Octets.Length;
            (_freeAt, _lastAt) = (each.LeavesAt + TimeOf(each.Octets.Length), each.At);
        }

        if (kept.Length == 0)
            (_freeAt, _lastAt) = (now, now);
    }

    /// <summary>Loses all that is on its way.</summary>
    public void Clear()
    {
        _onTheWay.Clear();
        _octets = 0;
    }

    /// <summary>Up to the flag that closes the first frame, or all.</summary>
    private static int FrameLength(ReadOnlySpan<byte> octets)
    {
        var opening = octets[0] == FrameFormat.Flag ? 1 : 0;
        var closing = octets[opening..].IndexOf(FrameFormat.Flag);
        return closing < 0 ? octets.Length : opening + closing + 1;
    }

    private void SendFrame(byte[] octets)
    {
        var leavesAt = _freeAt;
        _freeAt += TimeOf(octets.Length);
        var at = _freeAt + delay;
        if (IsUnlucky(noise.Drop))
            return;
        if (IsUnlucky(noise.Flip))
            octets[random.Next(octets.Length)] ^= (byte)(1 << random.Next(8));
        if (IsUnlucky(noise.Late))
            at += noise.LateBy;
        Enqueue(octets, leavesAt, at);
        if (IsUnlucky(noise.Duplicate))
            Enqueue(octets, leavesAt, at);
    }

    private void Enqueue(byte[] octets, TimeSpan leavesAt, TimeSpan at)
    {
        if (_octets + octets.Length > MostOctets)
            return; // nobody listens
        _lastAt = at > _lastAt ? at : _lastAt; // a line keeps order
        _octets += octets.Length;
        _onTheWay.Enqueue((leavesAt, _lastAt, octets));
    }

    private TimeSpan TimeOf(int octets) => TimeSpan.FromTicks(TimeSpan.TicksPerSecond * BitsPerOctet * octets / baud);

    private bool IsUnlucky(double chance) => chance > 0 && random.NextDouble() < chance;
}

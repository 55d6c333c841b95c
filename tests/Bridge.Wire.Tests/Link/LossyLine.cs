namespace Bridge.Wire.Tests;

/// <summary>
/// One direction of a line in virtual time: a fixed delay and octet time, and faults drawn from a seed. It may drop a frame, turn one bit of
/// it, or send it twice; it never reorders, as no cable does.
/// </summary>
internal sealed class LossyLine(Random random, double faultRate)
{
    private static readonly TimeSpan Delay = TimeSpan.FromMilliseconds(1);
    private static readonly TimeSpan OctetTime = TimeSpan.FromMicroseconds(20);

    private readonly Queue<(TimeSpan At, byte Octet)> _travelling = new();
    private TimeSpan _free;

    public void Write(ReadOnlySpan<byte> octets, TimeSpan now)
    {
        foreach (var frame in Split(octets))
        {
            if (Faulty())
                continue;
            if (Faulty())
                frame[random.Next(frame.Length)] ^= (byte)(1 << random.Next(8));
            Travel(frame, now);
            if (Faulty())
                Travel(frame, now);
        }
    }

    public IEnumerable<byte> Arrived(TimeSpan now)
    {
        while (_travelling.TryPeek(out var next) && next.At <= now)
            yield return _travelling.Dequeue().Octet;
    }

    private bool Faulty() => random.NextDouble() < faultRate;

    private void Travel(byte[] frame, TimeSpan now)
    {
        _free = _free > now ? _free : now;
        foreach (var octet in frame)
        {
            _free += OctetTime;
            _travelling.Enqueue((_free + Delay, octet));
        }
    }

    private static List<byte[]> Split(ReadOnlySpan<byte> octets)
    {
        var frames = new List<byte[]>();
        while (octets.Length > 0)
        {
            var end = 1 + octets[1..].IndexOf(FrameFormat.Flag) + 1;
            frames.Add(octets[..end].ToArray());
            octets = octets[end..];
        }
        return frames;
    }
}

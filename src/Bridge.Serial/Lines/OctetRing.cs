namespace Bridge.Serial;

/// <summary>A bounded first-in, first-out store of octets. Safe for several threads.</summary>
internal sealed class OctetRing(int capacity)
{
    private readonly byte[] octets = new byte[capacity];
    private readonly Lock gate = new();
    private int first;
    private int count;

    /// <summary>Octets in it.</summary>
    public int Count
    {
        get
        {
            lock (gate)
                return count;
        }
    }

    /// <summary>Octets that it still has room for.</summary>
    public int Free => octets.Length - Count;

    /// <summary>Adds all of <paramref name="added"/>, or nothing and returns false if there is no room for all.</summary>
    public bool TryAdd(ReadOnlySpan<byte> added)
    {
        lock (gate)
        {
            if (added.Length > octets.Length - count)
                return false;
            var end = (first + count) % octets.Length;
            var upToTheEdge = Math.Min(added.Length, octets.Length - end);
            added[..upToTheEdge].CopyTo(octets.AsSpan(end));
            added[upToTheEdge..].CopyTo(octets);
            count += added.Length;
            return true;
        }
    }

    /// <summary>Drops all.</summary>
    public void Clear()
    {
        lock (gate)
            (first, count) = (0, 0);
    }

    /// <summary>Takes the oldest octets, as many as there are and <paramref name="taken"/> holds; returns how many.</summary>
    public int Take(Span<byte> taken)
    {
        lock (gate)
        {
            var length = Peek(taken);
            Drop(length);
            return length;
        }
    }

    /// <summary>Copies the oldest octets, as many as there are and <paramref name="seen"/> holds, and leaves them; returns how many.</summary>
    public int Peek(Span<byte> seen)
    {
        lock (gate)
        {
            var length = Math.Min(seen.Length, count);
            var upToTheEdge = Math.Min(length, octets.Length - first);
            octets.AsSpan(first, upToTheEdge).CopyTo(seen);
            octets.AsSpan(0, length - upToTheEdge).CopyTo(seen[upToTheEdge..]);
            return length;
        }
    }

    /// <summary>Drops the oldest octets, <paramref name="length"/> of them, 0 to <see cref="Count"/>.</summary>
    public void Drop(int length)
    {
        lock (gate)
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThan((uint)length, (uint)count, nameof(length));
            first = (first + length) % octets.Length;
            count -= length;
        }
    }
}

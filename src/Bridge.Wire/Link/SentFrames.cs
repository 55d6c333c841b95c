using System.Diagnostics;

namespace Bridge.Wire;

/// <summary>The frames in flight, oldest first, in a ring of fixed memory.</summary>
internal sealed class SentFrames(int capacity)
{
    private const int SlotLength = FrameFormat.HeaderLength + FrameFormat.MaxBody;

    private readonly byte[] _octets = new byte[capacity * SlotLength];
    private readonly Slot[] _slots = new Slot[capacity];
    private int _first;

    public int Count { get; private set; }

    public bool IsFull => Count == _slots.Length;

    /// <summary>The frame at <paramref name="index"/>, 0 being the oldest.</summary>
    public ReadOnlySpan<byte> this[int index] => SlotOctets(index)[..At(index).Length];

    public void Add(ReadOnlySpan<byte> frame, TimeSpan now)
    {
        Debug.Assert(!IsFull && frame.Length <= SlotLength);
        Count++;
        frame.CopyTo(SlotOctets(Count - 1));
        At(Count - 1) = new Slot(frame.Length, now, SentOnce: true);
    }

    /// <summary>Notes that all are sent again, because none was acknowledged in time: an acknowledgement may now be of either copy.</summary>
    public void MarkRepeated()
    {
        for (var index = 0; index < Count; index++)
            At(index) = At(index) with { SentOnce = false };
    }

    /// <summary>Notes that all are sent anew, because the board has discarded the copies before: the round trip begins now.</summary>
    public void MarkReplaced(TimeSpan now)
    {
        for (var index = 0; index < Count; index++)
            At(index) = At(index) with { SentAt = now };
    }

    /// <summary>Drops the <paramref name="count"/> oldest; returns when the newest of them was sent, or null if that is not certain.</summary>
    public TimeSpan? Drop(int count)
    {
        Debug.Assert(count > 0 && count <= Count);
        var newest = At(count - 1);
        _first = (_first + count) % _slots.Length;
        Count -= count;
        return newest.SentOnce ? newest.SentAt : null;
    }

    public void Clear()
    {
        _first = 0;
        Count = 0;
    }

    private ref Slot At(int index) => ref _slots[Place(index)];

    private Span<byte> SlotOctets(int index) => _octets.AsSpan(Place(index) * SlotLength, SlotLength);

    private int Place(int index) => (_first + index) % _slots.Length;

    private readonly record struct Slot(int Length, TimeSpan SentAt, bool SentOnce);
}

using CsCheck;

namespace Bridge.Serial.Tests;

public class OctetRingTests
{
    private const int Capacity = 7;

    [Fact]
    public void What_goes_in_comes_out_in_order_and_what_has_no_room_is_refused_whole()
    {
        // Above zero: so many octets are added. Below: so many are taken.
        Gen.Int[-9, 9].Array[0, 60].Sample(
            steps =>
            {
                var ring = new OctetRing(Capacity);
                var model = new Queue<byte>();
                byte next = 0;
                foreach (var step in steps)
                    if (step > 0)
                        Add(ring, model, step, ref next);
                    else
                        Take(ring, model, -step);
                Take(ring, model, Capacity);
            },
            seed: "0000000000001", iter: 2000);
    }

    [Fact]
    public void What_is_dropped_was_there_and_was_the_oldest()
    {
        var ring = new OctetRing(Capacity);
        ring.TryAdd([1, 2, 3]);

        Assert.Throws<ArgumentOutOfRangeException>(() => ring.Drop(4));
        Assert.Throws<ArgumentOutOfRangeException>(() => ring.Drop(-1));
        ring.Drop(2);

        var left = new byte[Capacity];
        Assert.Equal([3], left[..ring.Take(left)]);
    }

    private static void Add(OctetRing ring, Queue<byte> model, int count, ref byte next)
    {
        var octets = new byte[count];
        for (var i = 0; i < count; i++)
            octets[i] = next++;
        var fits = model.Count + count <= Capacity;
        Assert.Equal(fits, ring.TryAdd(octets));
        for (var i = 0; fits && i < count; i++)
            model.Enqueue(octets[i]);
        Assert.Equal(model.Count, ring.Count);
        Assert.Equal(Capacity - model.Count, ring.Free);
    }

    private static void Take(OctetRing ring, Queue<byte> model, int count)
    {
        var taken = new byte[count];
        var expected = Enumerable.Range(0, Math.Min(count, model.Count)).Select(_ => model.Dequeue()).ToArray();
        Assert.Equal(expected, taken[..ring.Peek(taken)]);
        Assert.Equal(expected, taken[..ring.Take(taken)]);
    }
}

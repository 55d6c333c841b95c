namespace Bridge.Wire.Tests;

/// <summary>
/// What flipped bits the check sequence sees. P. Koopman's tables give our generator (0x8810 there) Hamming distance 4 up to 32 751 bits: one to
/// three flipped bits are always seen, four not always.
/// </summary>
public class HammingDistanceTests
{
    private const int Bits = FrameFormat.MaxContent * 8;

    public static TheoryData<string> Messages =>
        [.. new[] { "messages.txt", "store-jog.txt" }.SelectMany(Vectors.Read).Select(row => row[2]).Distinct()];

    // The check is linear: what flipped bits do to the remainder is the XOR of what each does alone, whatever the frame says; and that depends on
    // the bit's distance from the frame's end alone, so the longest frame speaks for the shorter ones.
    [Fact]
    public void Every_one_two_and_three_bit_damage_of_frames_up_to_the_longest_is_seen()
    {
        var alone = Remainders();
        var isOfOne = new bool[1 << 16];
        foreach (var remainder in alone)
        {
            Assert.False(remainder == 0 || isOfOne[remainder], "One or two flipped bits leave no trace.");
            isOfOne[remainder] = true;
        }

        for (var first = 0; first < Bits; first++)
            for (var second = 0; second < first; second++)
                if (isOfOne[alone[first] ^ alone[second]])
                    Assert.Fail($"Bits {first} and {second} and a third one leave no trace.");
    }

    [Fact]
    public void Some_damage_of_four_bits_is_not_seen()
    {
        var alone = Remainders();
        var pairs = new Dictionary<int, (int First, int Second)>();
        for (var first = 0; first < Bits; first++)
            for (var second = 0; second < first; second++)
                if (!pairs.TryAdd(alone[first] ^ alone[second], (first, second)))
                {
                    var other = pairs[alone[first] ^ alone[second]];
                    var frame = Flipped(Frame(7), first, second, other.First, other.Second);
                    Assert.True(Fcs16.IsGood(frame));
                    return;
                }

        Assert.Fail("Hamming distance 5 would be more than the tables promise.");
    }

    [Fact]
    public void Flipped_bits_add_up_whatever_the_frame_says()
    {
        var (alone, random) = (Remainders(), new Random(1));
        for (var trial = 0; trial < 20_000; trial++)
        {
            var bits = Enumerable.Range(0, 1 + trial % 5).Select(_ => random.Next(Bits)).Distinct().ToArray();
            var damaged = Flipped(Frame(trial), bits);
            Assert.Equal(Fcs16.Good ^ bits.Aggregate(0, (sum, bit) => sum ^ alone[bit]), Remainder(damaged));
        }
    }

    // On the line a flipped bit may also make or unmake a flag or an escape, which moves all that follows: no table speaks for that.
    [Theory]
    [MemberData(nameof(Messages))]
    public void One_or_two_flipped_bits_on_the_line_never_make_another_frame_of_a_golden_one(string hex)
    {
        var line = Convert.FromHexString(hex);
        for (var first = 0; first < line.Length * 8; first++)
            for (var second = 0; second <= first; second++)
                CheckNoOther(line, second == first ? Flipped(line, first) : Flipped(line, first, second));
    }

    [Theory]
    [MemberData(nameof(Messages))]
    public void Three_flipped_bits_on_the_line_tried_10_000_times_never_make_another_frame_of_a_golden_one(string hex)
    {
        var (line, random) = (Convert.FromHexString(hex), new Random(1));
        for (var trial = 0; trial < 10_000; trial++)
            CheckNoOther(line, Flipped(line, random.Next(line.Length * 8), random.Next(line.Length * 8), random.Next(line.Length * 8)));
    }

    private static void CheckNoOther(byte[] line, byte[] damaged)
    {
        var decoder = new FrameDecoder();
        foreach (var octet in damaged)
            if (decoder.Push(octet) == DecoderEvent.Frame && !Decoding.Encode(decoder.Frame).AsSpan().SequenceEqual(line))
                Assert.Fail($"{Convert.ToHexString(damaged)} holds {Convert.ToHexString(decoder.Frame)}.");
    }

    private static int[] Remainders() => [.. Enumerable.Range(0, Bits).Select(bit => Fcs16.Good ^ Remainder(Flipped(Frame(1), bit)))];

    private static int Remainder(byte[] content) => content.Aggregate(Fcs16.Initial, Fcs16.Update);

    private static byte[] Frame(int seed)
    {
        var frame = new byte[FrameFormat.MaxContent];
        new Random(seed).NextBytes(frame);
        var fcs = Fcs16.Of(frame.AsSpan(..^2));
        (frame[^2], frame[^1]) = ((byte)fcs, (byte)(fcs >> 8));
        return frame;
    }

    private static byte[] Flipped(byte[] octets, params ReadOnlySpan<int> bits)
    {
        var flipped = octets.ToArray();
        foreach (var bit in bits)
            flipped[bit / 8] ^= (byte)(1 << bit % 8);
        return flipped;
    }
}

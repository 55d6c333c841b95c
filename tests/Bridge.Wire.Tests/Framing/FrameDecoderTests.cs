using CsCheck;

namespace Bridge.Wire.Tests;

public class FrameDecoderTests
{
    public static TheoryData<string, string, string> Golden => Vectors.Columns("framing.txt");

    [Theory]
    [MemberData(nameof(Golden))]
    public void The_decoder_reports_what_the_golden_vectors_say(string name, string octets, string expected)
    {
        var events = string.Join(' ', Decoding.Events(Vectors.Hex(octets)));
        Assert.Equal((name, expected), (name, events.Length == 0 ? "-" : events));
    }

    [Theory]
    [MemberData(nameof(Golden))]
    public void A_frame_after_any_of_that_is_read(string name, string octets, string expected)
    {
        byte[] stream = [.. Vectors.Hex(octets), .. Decoding.Encode([0x82, 9, 9])];
        Assert.True(Decoding.Events(stream)[^1] == "frame:820909", $"{name} ({expected})");
    }

    [Fact]
    public void A_cut_frame_is_dropped_and_the_next_one_is_read()
    {
        var cut = Decoding.Encode([8, 0x7F, 0x7E, 0x7D, 1, 2, 3]);
        for (var length = 0; length < cut.Length - 1; length++)
        {
            byte[] stream = [.. cut[..length], .. Decoding.Encode([2, 1, 0])];
            Assert.Equal(["020100"], Decoding.Frames(new FrameDecoder(), stream).Select(Convert.ToHexStringLower));
        }
    }

    [Fact]
    public void Any_frame_comes_back_as_it_was() => Gen.Byte.Array[3, 62].Array[1, 6].Sample(frames =>
        Assert.Equal(frames, Decoding.Frames(new FrameDecoder(), frames.SelectMany(frame => Decoding.Encode(frame)))),
        seed: "0N0XIzNsQ0O2", iter: 500);

    [Fact]
    public void Frames_that_share_a_flag_come_back_as_they_were() => Gen.Byte.Array[3, 62].Array[2, 6].Sample(frames =>
        Assert.Equal(frames, Decoding.Frames(new FrameDecoder(), frames.SelectMany((frame, i) => Decoding.Encode(frame)[(i == 0 ? 0 : 1)..]))),
        seed: "0N0XIzNsQ0O2", iter: 500);

    [Fact]
    public void One_wrong_bit_costs_one_frame_and_never_makes_another()
    {
        byte[][] frames = [[1, 2, 3], [8, 0x7E, 5, 0x7D, 9, 0x7F], [2, 1, 0, 4]];
        var lines = frames.Select(frame => Decoding.Encode(frame)).ToArray();
        for (var bit = 0; bit < lines[1].Length * 8; bit++)
        {
            var middle = (byte[])lines[1].Clone();
            middle[bit / 8] ^= (byte)(1 << bit % 8);
            byte[] stream = [.. lines[0], .. middle, .. lines[2]];
            Assert.Equal([frames[0], frames[2]], Decoding.Frames(new FrameDecoder(), stream));
        }
    }

    [Fact]
    public void Random_octets_never_harm_the_decoder_and_a_stop_is_seen_wherever_it_falls() =>
        Gen.Select(Gen.Byte.Array[0, 200], Gen.OneOf(Gen.Const((byte)0), Gen.Byte[0x7D, 0x7F]).Array[0, 20]).Sample((noise, marks) =>
        {
            byte[] stream = [.. noise, .. marks, .. noise];
            var expected = stream.Zip(stream.Skip(1)).Count(pair => pair is (0x7F, 0x7F));
            var decoder = new FrameDecoder();
            Assert.Equal(expected, stream.Count(octet => decoder.Push(octet) == DecoderEvent.Stop));
            Assert.Equal(expected, decoder.Counters.Stops);
        }, seed: "0N0XIzNsQ0O2", iter: 2000);

    [Fact]
    public void Stop_is_seen_at_every_place_of_a_stream()
    {
        byte[] stream = [.. Decoding.Encode([8, 0x7F, 0x7E, 0x7D]), .. Decoding.Encode([2, 1, 0])];
        for (var place = 0; place <= stream.Length; place++)
        {
            byte[] stopped = [.. stream[..place], .. StopOctets.Burst, .. stream[place..]];
            Assert.Equal(StopOctets.Burst.Length - 1, Decoding.Events(stopped).Count(e => e == "stop"));
        }
    }

    [Fact]
    public void No_encoded_frame_is_ever_a_stop() => Gen.OneOf(Gen.Const((byte)0x5F), Gen.Byte[0x7D, 0x7F]).Array[3, 62].Array[1, 5].Sample(frames =>
        Assert.DoesNotContain("stop", Decoding.Events(frames.SelectMany(frame => Decoding.Encode(frame)))), seed: "0N0XIzNsQ0O2", iter: 500);

    [Fact]
    public void A_frame_in_which_the_receiver_lost_an_octet_is_spoiled()
    {
        var decoder = new FrameDecoder();
        var line = Decoding.Encode([1, 2, 3]);
        Assert.Empty(Decoding.Frames(decoder, line[..3]));
        decoder.Spoil();
        Assert.Empty(Decoding.Frames(decoder, line[3..]));
        Assert.Equal(1, decoder.Counters.Spoiled);
        Assert.Single(Decoding.Frames(decoder, line));
    }

    [Fact]
    public void The_frame_is_gone_with_the_next_octet()
    {
        var decoder = new FrameDecoder();
        Assert.Single(Decoding.Frames(decoder, Decoding.Encode([1, 2, 3])));
        Assert.Equal(3, decoder.Frame.Length);
        decoder.Push(0);
        Assert.Equal(0, decoder.Frame.Length);
    }

    [Fact]
    public void Two_reserved_octets_with_a_lost_one_between_are_no_stop()
    {
        var decoder = new FrameDecoder();
        decoder.Push(0x7F);
        decoder.Spoil();
        Assert.Equal(DecoderEvent.None, decoder.Push(0x7F));
        Assert.Equal(0, decoder.Counters.Stops);
    }

    [Fact]
    public void A_frame_whose_last_octet_was_lost_behind_an_escape_is_spoiled_and_not_aborted()
    {
        var decoder = new FrameDecoder();
        foreach (var octet in new byte[] { 0x7E, 1, 2, 0x7D })
            decoder.Push(octet);
        decoder.Spoil();
        decoder.Push(0x7E);
        Assert.Equal((1, 0), (decoder.Counters.Spoiled, decoder.Counters.Aborted));
    }

    [Fact]
    public void Good_frames_are_counted()
    {
        var decoder = new FrameDecoder();
        Decoding.Frames(decoder, [.. Decoding.Encode([1, 2, 3]), .. Decoding.Encode([1, 2, 3])]);
        Assert.Equal(2, decoder.Counters.Good);
    }

    [Theory]
    [InlineData("7e0102037e")]
    [InlineData("7e010203ffff7e")]
    [InlineData("7e7e")]
    public void There_is_no_frame_behind_one_that_was_discarded(string hex)
    {
        var decoder = new FrameDecoder();
        Assert.Empty(Decoding.Frames(decoder, Convert.FromHexString(hex)));
        Assert.Equal(0, decoder.Frame.Length);
    }
}

using CsCheck;

namespace Bridge.Wire.Tests;

public class MessageVectorTests
{
    public static TheoryData<string, string, string> BadBodies => Vectors.Columns("bad-bodies.txt");

    private static IEnumerable<string[]> Golden() => Vectors.Read("messages.txt").Concat(Vectors.Read("store-jog.txt"));

    [Fact]
    public void Every_golden_message_reads_as_its_fields_and_writes_as_its_octets()
    {
        var types = new HashSet<MessageType>();
        foreach (var row in Golden())
        {
            var frame = Vectors.Hex(row[1]);
            Assert.True(FrameHeader.TryRead(frame, out var header, out var body), row[0]);
            Assert.Equal((row[0], row[3]), (row[0], MessageText.Of(header.Type, body) ?? "unreadable"));
            Assert.Equal((row[0], row[1]), (row[0], Convert.ToHexStringLower(MessageText.Recompose(header, body))));
            Assert.Equal((row[0], row[2]), (row[0], Convert.ToHexStringLower(Decoding.Encode(frame))));
            types.Add(header.Type);
        }
        Assert.Equal(Enum.GetValues<MessageType>().Length - 1, types.Count);
    }

    [Theory]
    [MemberData(nameof(BadBodies))]
    public void A_bad_body_is_not_read(string name, string frame, string why)
    {
        Assert.True(FrameHeader.TryRead(Vectors.Hex(frame), out var header, out var body));
        Assert.True(MessageText.Of(header.Type, body) is null, $"{name}: {why}");
    }

    [Fact]
    public void A_truncated_body_is_not_read_unless_it_is_octets_cut_short()
    {
        foreach (var row in Golden())
        {
            FrameHeader.TryRead(Vectors.Hex(row[1]), out var header, out var body);
            for (var length = 0; length < body.Length; length++)
                Assert.Equal(length > (header.Type switch
                    {
                        MessageType.Records => Records.PrefixLength,
                        MessageType.StoreData => StoreData.PrefixLength,
                        MessageType.Stored => Stored.PrefixLength,
                        _ => int.MaxValue,
                    }),
                    MessageText.Of(header.Type, body[..length]) is not null);
        }
    }

    [Fact]
    public void What_can_be_read_from_a_damaged_message_is_written_back_the_same()
    {
        var golden = Golden().Select(row => Vectors.Hex(row[1])).ToArray();
        Gen.Select(Gen.Int[0, golden.Length - 1], Gen.Select(Gen.Int[0, 61], Gen.Byte).Array[1, 3]).Sample((index, damages) =>
        {
            var frame = (byte[])golden[index].Clone();
            foreach (var (place, octet) in damages)
                frame[place % frame.Length] = octet;
            FrameHeader.TryRead(frame, out var header, out var body);
            if (header.Type != MessageType.Hello && MessageText.Of(header.Type, body) is not null)
                Assert.Equal(frame, MessageText.Recompose(header, body));
        }, seed: "0N0XIzNsQ0O2", iter: 20_000);
    }
}

using Bridge.Wire;
using Bridge.Wire.Tests;

namespace Fuzz.Tests;

/// <summary>Messages: what is read is written again octet for octet.</summary>
internal sealed class MessageTarget : FuzzTarget
{
    protected override IReadOnlyList<byte[]> Corpus { get; } =
        [.. new[] { "messages", "bad-bodies", "store-jog" }.SelectMany(name => Vectors.Of($"wire/{name}.txt")).Select(row => Convert.FromHexString(row[1]))];

    public override bool Check(byte[] input)
    {
        if (!FrameHeader.TryRead(input, out var header, out var body))
        {
            Assert.True(input.Length is < 3 or > 62);
            return false;
        }

        if (MessageText.Of(header.Type, body) is not { } text)
            return false;
        var again = MessageText.Recompose(header, body);
        Assert.Equal(text, MessageText.Of(header.Type, again.AsSpan(3)));
        Assert.Equal(header.Type == MessageType.Hello ? input[..6] : input, again); // what stands behind a Hello's three octets is ignored
        return true;
    }

    // Any type with the body of another.
    protected override byte[] Seal(byte[] input, Random random)
    {
        var types = Enum.GetValues<MessageType>();
        return input.Length == 0 ? input : [(byte)types[random.Next(types.Length)], .. input[1..]];
    }
}

using Bridge.Wire;
using Bridge.Wire.Tests;

namespace Fuzz.Tests;

/// <summary>Octets on the line: the decoder tells of just what a slow one tells of that is written from the tables of SPEC.md.</summary>
internal sealed class FrameTarget(bool forgetsEscape = false) : FuzzTarget
{
    protected override IReadOnlyList<byte[]> Corpus { get; } =
    [
        .. Vectors.Of("wire/framing.txt").Select(row => Convert.FromHexString(row[1])),
        .. Vectors.Of("wire/messages.txt").Select(row => Convert.FromHexString(row[2])),
    ];

    protected override IReadOnlyList<byte[]> Words { get; } = [[0x7D], [0x7E], [0x7F], [0x7F, 0x7F], [0x7D, 0x7E], [0x7D, 0x7F], [0x7D, 0x7D]];

    public override bool Check(byte[] input)
    {
        var events = Decoding.Events(input);
        Assert.Equal(new SlowDecoder(input, forgetsEscape).Events(), events);
        return events.Any(told => told.StartsWith("frame:", StringComparison.Ordinal));
    }

    // Good frames among what is there.
    protected override byte[] Seal(byte[] input, Random random)
    {
        var body = new byte[random.Next(60)];
        random.NextBytes(body);
        var line = new byte[FrameFormat.MaxOnLine];
        var at = random.Next(input.Length + 1);
        return [.. input[..at], .. line[..FrameEncoder.Encode([1, 2, 3, .. body[..Math.Min(body.Length, FrameFormat.MaxBody)]], line)], .. input[at..]];
    }
}

using System.Buffers.Binary;

namespace Fuzz.Tests;

/// <summary>A reader with a defect: it believes the length that stands in its input.</summary>
internal sealed class TrustingTarget : FuzzTarget
{
    protected override IReadOnlyList<byte[]> Corpus { get; } = [[0, 0, 0, 3, 1, 2, 3]];

    public override bool Check(byte[] input)
    {
        if (input.Length < 4)
            return false;
        Assert.NotNull(input.AsSpan(4, (int)Math.Min(1000, BinaryPrimitives.ReadUInt32BigEndian(input))).ToArray());
        return true;
    }
}

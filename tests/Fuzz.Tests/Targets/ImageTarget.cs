using Bridge.Jobs;

namespace Fuzz.Tests;

/// <summary>Images: the first octet stands for the width, the rest is the store. What is read is the store's beginning, record by record.</summary>
internal sealed class ImageTarget : FuzzTarget
{
    private static readonly Grid[] Grids = [new(16, 16, 16), new(256, 200, 3), new(4096, 4096, 2)];

    protected override IReadOnlyList<byte[]> Corpus { get; } =
        [.. Vectors.Of("job/jobs.txt").Select(row => (byte[])[(byte)(int.Parse(row[1]) / 4 - 1), .. Convert.FromHexString(row[3])])];

    public static Image ImageOf(string[] row)
    {
        Assert.True(RecordWidth.TryFrom(int.Parse(row[1]), out var width));
        return Image.Parse(width, Convert.FromHexString(row[3]), "image");
    }

    public override bool Check(byte[] input)
    {
        var kind = input.Length == 0 ? 0 : input[0] % 3;
        var (width, store) = (RecordWidth.All[kind], input.Skip(1).ToArray());
        if (!Reading.IsRead(() => Image.Parse(width, store, "image"), "image", out var image))
            return false;
        var rest = store[image.Bytes.Length..];
        Assert.Equal(store[..image.Bytes.Length], image.Bytes.ToArray());
        Assert.True(rest.All(octet => octet == 0) || rest.All(octet => octet == 0xFF));
        for (var index = 0; index < image.Count; index++)
        {
            var octets = new byte[width.Bytes];
            RecordCodec.Write(width, image[index], octets);
            Assert.Equal(store[(index * width.Bytes)..((index + 1) * width.Bytes)], octets);
        }

        Execution.Check(image, Grids[kind]);
        return true;
    }

    // Whole records, now and then among blank memory.
    protected override byte[] Seal(byte[] input, Random random)
    {
        if (input.Length == 0)
            return input;
        var bytes = RecordWidth.All[input[0] % 3].Bytes;
        var whole = input[..(1 + (input.Length - 1) / bytes * bytes)];
        return random.Next(2) == 0 ? whole : [.. whole, .. new byte[bytes], .. Enumerable.Repeat((byte)(random.Next(2) * 255), random.Next(100))];
    }
}

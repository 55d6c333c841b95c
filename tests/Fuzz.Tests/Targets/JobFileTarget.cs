using System.Buffers.Binary;
using System.IO.Hashing;
using Bridge.Jobs;

namespace Fuzz.Tests;

/// <summary>Job files: what is read is written again byte for byte, and its job can be executed.</summary>
internal sealed class JobFileTarget : FuzzTarget
{
    private const int LengthPlace = 48;
    private const int Least = 56;

    protected override IReadOnlyList<byte[]> Corpus { get; } = [.. Vectors.Of("job/files.txt").Select(row => Convert.FromHexString(row[1])), .. JobFiles()];

    public override bool Check(byte[] input)
    {
        if (!Reading.IsRead(() => JobFile.Parse(input, "job"), "job", out var job))
            return false;
        Assert.Equal(input, job.ToBytes());
        Execution.Check(job.Image, job.Grid);
        return true;
    }

    protected override byte[] Seal(byte[] input, Random random)
    {
        var sealedInput = input.Length < Least ? [.. input, .. new byte[Least - input.Length]] : input.ToArray();
        Corpus[0].AsSpan(0, 9).CopyTo(sealedInput);
        if (random.Next(4) > 0)
            BinaryPrimitives.WriteUInt32BigEndian(sealedInput.AsSpan(LengthPlace), (uint)(sealedInput.Length - Least));
        BinaryPrimitives.WriteUInt32BigEndian(sealedInput.AsSpan(^4..), Crc32.HashToUInt32(sealedInput.AsSpan(..^4)));
        return sealedInput;
    }

    private static IEnumerable<byte[]> JobFiles() =>
        from row in Vectors.Of("job/jobs.txt")
        let grid = row[2].Split(' ').Select(int.Parse).ToArray()
        select new JobFile(new Grid(grid[0], grid[1], grid[2]), MachineDigest.Of("abc"u8), ImageTarget.ImageOf(row)).ToBytes();
}

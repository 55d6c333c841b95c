using CsCheck;

namespace Bridge.Jobs.Tests;

public class JobFileTests
{
    public static TheoryData<string, string, string> Lines()
    {
        var data = new TheoryData<string, string, string>();
        foreach (var field in Vectors.Of("job/files.txt"))
            data.Add(field[0], field[1], field[2]);
        return data;
    }

    [Theory, MemberData(nameof(Lines))]
    public void The_golden_files_are_read_or_refused_as_the_vectors_say(string name, string hex, string meaning)
    {
        var bytes = Convert.FromHexString(hex);
        if (meaning.StartsWith("refused ", StringComparison.Ordinal))
        {
            var refused = Assert.Throws<RefusedException>(() => JobFile.Parse(bytes, name));
            Assert.Contains(meaning["refused ".Length..], refused.Message);
            return;
        }

        var job = JobFile.Parse(bytes, name);
        Assert.Equal(meaning,
            $"{job.Image.Width.AxisBits} {job.Grid.X} {job.Grid.Y} {job.Grid.Layers} {job.Machine} {Convert.ToHexString(job.Image.Bytes.Span)}");
        Assert.Equal(hex, Convert.ToHexString(job.ToBytes()));
    }

    [Fact]
    public void Every_truncation_every_extension_and_every_flipped_bit_is_refused()
    {
        var good = Good().ToBytes();
        for (var length = 0; length < good.Length; length++)
            Refused(good[..length]);
        for (var extra = 1; extra < 300; extra++)
            Refused([.. good, .. new byte[extra]]);
        for (var bit = 0; bit < good.Length * 8; bit++)
        {
            var damaged = (byte[])good.Clone();
            damaged[bit / 8] ^= (byte)(1 << bit % 8);
            Refused(damaged);
        }
    }

    [Fact]
    public void Random_bytes_behind_a_good_signature_are_refused_in_words()
    {
        var signature = Good().ToBytes()[..8];
        Gen.Byte.Array[0, 200].Sample(rest => Refused([.. signature, .. rest]), seed: "0N0XIzNsQ0O2", iter: 20_000);
    }

    [Fact]
    public void The_check_is_the_CRC_32_of_the_catalogue() =>
        // CRC catalogue (reveng), CRC-32/ISO-HDLC: check = 0xCBF43926.
        Assert.Equal(0xCBF43926u, System.IO.Hashing.Crc32.HashToUInt32("123456789"u8));

    [Fact]
    public void A_file_that_is_not_there_and_a_folder_are_refused_by_name()
    {
        Assert.Contains("no such file", Assert.Throws<RefusedException>(() => JobFile.Read("/no/such/file.job")).Message);
        Assert.Contains("a folder", Assert.Throws<RefusedException>(() => JobFile.Read(Path.GetTempPath())).Message);
    }

    private static JobFile Good() => new(new Grid(16, 16, 16), MachineDigest.Of("abc"u8),
        Image.Of(RecordWidth.Four, [Record.Row(RecordWidth.Four, Head.A, new Cell(1, 2), 0, 5), Record.End]));

    private static void Refused(byte[] bytes) => Assert.Throws<RefusedException>(() => JobFile.Parse(bytes, "job"));

    [Theory]
    [InlineData(1, 1, 1, true)]
    [InlineData(16, 16, 4096, true)]
    [InlineData(0, 16, 16, false)]
    [InlineData(17, 16, 16, false)]
    [InlineData(16, 0, 16, false)]
    [InlineData(16, 17, 16, false)]
    [InlineData(16, 16, 0, false)]
    [InlineData(16, 16, 4097, false)]
    public void A_grid_is_taken_up_to_its_limits_and_not_beyond(int x, int y, int layers, bool isTaken)
    {
        var file = (Good() with { Grid = new Grid(x, y, layers) }).ToBytes();
        if (isTaken)
            Assert.Equal(new Grid(x, y, layers), JobFile.Parse(file, "job").Grid);
        else
            Assert.Contains($"job, byte 10: found a grid of {x} x {y} x {layers}; "
                + "allowed: 1 to 16 cells along X and Y, 1 to 4096 layers. Plan the job again.", Words(file));
    }

    [Fact]
    public void Every_refusal_says_where_what_was_found_what_is_allowed_and_what_to_do()
    {
        var good = Good().ToBytes();
        Assert.Equal("job: found bytes without the signature of a job; allowed: a job file as bridge plan writes it. Give a job file; "
            + "for the raw bytes of a store say --raw. Those of a layout only check, explain and sheet can read, with --layout.", Words([1, .. good[1..]]));
        Assert.Equal("job: found an empty file, without the signature of a job; allowed: a job file as bridge plan writes it. "
            + "Plan the job again, or fetch the file again.", Words([]));
        Assert.Equal("job: found 55 bytes; allowed: at least 56 bytes. The file is cut short. Plan the job again, or fetch the file again.", Words(good[..55]));
        Assert.Equal("job, byte 8: found format version 2; allowed: version 1. Plan the job again with this version of the program.", Words(With(good, 8, 2)));
        Assert.Equal("job, byte 48: found an image length of 6 in a file of 63 bytes; allowed: 7. The file is cut short, extended or damaged. "
            + "Plan the job again, or fetch the file again.", Words([.. good, 0]));
        Assert.Matches("^job, byte 58: found a CRC-32 of [0-9A-F]{8}; allowed: [0-9A-F]{8}, the bytes' own. A bit is damaged. Plan",
            Words([.. good[..^1], (byte)~good[^1]]));
        Assert.Equal("job, byte 9: found 5 axis bits; allowed: 4, 8 or 12. Plan the job again.", Words(Sound(With(good, 9, 5))));
        Assert.Equal("job, image byte 3: found bytes behind the end; allowed: none in a job file. Plan the job again.",
            Words(Sound([.. good[..52], 0, 0, 0, 0, 0, 0, .. good[^4..]])));
        Assert.StartsWith("job, image, byte 6: found", Words(Sound([.. With(good, 51, 7)[..^4], 1, 0, 0, 0, 0])));
    }

    [Fact]
    public void A_file_of_just_its_header_and_check_is_long_enough_to_be_looked_at() =>
        Assert.Contains("job, image: found 0 bytes", Words(Sound([.. With(Good().ToBytes(), 51, 0)[..52], 0, 0, 0, 0])));

    [Theory]
    [InlineData(0, "without the signature of a job")]
    [InlineData(1, "16777273 bytes; allowed: up to 16777272 bytes")]
    public void A_file_is_read_up_to_the_largest_image_with_its_header_and_check(int more, string found)
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, new byte[16 * 1024 * 1024 + 52 + 4 + more]);
            Assert.Contains(found, Assert.Throws<RefusedException>(() => JobFile.Read(path)).Message);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void A_signature_is_known_by_its_eight_octets_alone()
    {
        Assert.True(JobFile.HasSignature(Good().ToBytes().AsSpan(0, 8)));
        Assert.False(JobFile.HasSignature(Good().ToBytes().AsSpan(0, 7)));
    }

    private static string Words(byte[] file) => Assert.Throws<RefusedException>(() => JobFile.Parse(file, "job")).Message;

    private static byte[] With(byte[] file, int at, byte value) => [.. file[..at], value, .. file[(at + 1)..]];

    // The check made right again, so that what stands before it is looked at.
    private static byte[] Sound(byte[] file)
    {
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32BigEndian(file.AsSpan(file.Length - 4), System.IO.Hashing.Crc32.HashToUInt32(file.AsSpan(..^4)));
        return file;
    }
}

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
}

using System.Security.Cryptography;
using System.Text;

namespace Bridge.Runs.Tests;

public class JournalChainTests
{
    private static readonly byte[] Whole = Journal(4);

    [Theory]
    [InlineData("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")] // FIPS 180-4, example of SHA-256 with one block
    [InlineData("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1")] // the same, two blocks
    [InlineData("", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")] // NIST's example values, no message
    public void The_digest_is_the_standards(string message, string digest) =>
        Assert.Equal(digest, Convert.ToHexStringLower(SHA256.HashData(Encoding.ASCII.GetBytes(message))));

    [Fact]
    public void A_million_letters_have_the_digest_that_the_standard_gives() => // FIPS 180-2, appendix B.3
        Assert.Equal("cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
            Convert.ToHexStringLower(SHA256.HashData(Encoding.ASCII.GetBytes(new string('a', 1_000_000)))));

    [Fact]
    public void A_link_is_the_left_half_of_a_digest_over_the_link_before_and_the_line()
    {
        var links = new string('0', 32);
        foreach (var line in Encoding.UTF8.GetString(Whole).TrimEnd().Split('\n'))
        {
            var body = line[..line.IndexOf(",\"chain\":", StringComparison.Ordinal)];
            links = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(links + body)))[..32];
            Assert.EndsWith($",\"chain\":\"{links}\"}}", line);
        }
    }

    [Fact]
    public void Every_bit_that_is_changed_is_found_in_its_line_or_cuts_the_end_off()
    {
        for (var bit = 0; bit < Whole.Length * 8; bit++)
        {
            var changed = (byte[])Whole.Clone();
            changed[bit / 8] ^= (byte)(1 << (bit % 8));
            var line = Whole.AsSpan(0, bit / 8).Count((byte)'\n') + 1;
            var journal = JournalFile.Examine(changed, "journal");
            if (bit / 8 == Whole.Length - 1) // the last new line: what it ended is no whole entry
                Assert.Equal((null, 3), (journal.Damage, journal.Entries.Count));
            else
                Assert.Equal(($"journal, line {line}", line - 1), (journal.Damage?.Place, journal.Entries.Count));
        }
    }

    [Fact]
    public void An_entry_that_is_removed_added_or_moved_is_found_where_it_was()
    {
        var lines = Encoding.UTF8.GetString(Whole).TrimEnd().Split('\n');
        for (var at = 0; at < lines.Length - 1; at++)
        {
            AssertDamaged(at, [.. lines[..at], .. lines[(at + 1)..]]);
            AssertDamaged(at + 1, [.. lines[..(at + 1)], lines[at], .. lines[(at + 1)..]]);
            AssertDamaged(at, [.. lines[..at], lines[at + 1], lines[at], .. lines[(at + 2)..]]);
        }
    }

    [Fact]
    public void Numbers_made_right_after_a_removal_do_not_make_the_chain_right()
    {
        var lines = Encoding.UTF8.GetString(Whole).TrimEnd().Split('\n');
        AssertDamaged(1, [lines[0], lines[2].Replace("\"n\":2", "\"n\":1", StringComparison.Ordinal),
            lines[3].Replace("\"n\":3", "\"n\":2", StringComparison.Ordinal)]);
    }

    [Fact]
    public void A_journal_of_the_first_format_is_read_and_gone_on_with_without_a_chain()
    {
        const string Old = "{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":1}\n{\"n\":1,\"seconds\":0.5,\"kind\":\"Sent\",\"records\":4}\n";
        var read = JournalFile.Parse(Encoding.UTF8.GetBytes(Old), "journal");
        Assert.Equal((2, null), (read.Entries.Count, read.Chain));
        var disk = new FullDisk(long.MaxValue);
        disk.Write(Encoding.UTF8.GetBytes(Old), 0, Old.Length);
        using (var journal = new FileJournal(disk, read))
            Assert.True(journal.TryAppend(new JournalEntry(2, 1, JournalKind.End), out _));
        Assert.Equal(Old + "{\"n\":2,\"seconds\":1,\"kind\":\"End\"}\n", Encoding.UTF8.GetString(disk.Contents));
        Assert.Equal(3, JournalFile.Parse(disk.Contents, "journal").Entries.Count);
    }

    [Fact]
    public void A_journal_that_was_cut_and_gone_on_with_is_one_chain()
    {
        for (var length = 0; length <= Whole.Length; length++)
        {
            var disk = new FullDisk(long.MaxValue);
            disk.Write(Whole, 0, length);
            var read = JournalFile.Parse(disk.Contents, "journal");
            using (var journal = new FileJournal(disk, read))
                for (var number = read.Entries.Count; number < 4; number++)
                    Assert.True(journal.TryAppend(Entry(number), out _));
            Assert.Equal(Whole, disk.Contents);
        }
    }

    private static void AssertDamaged(int line, string[] lines)
    {
        var journal = JournalFile.Examine(Encoding.UTF8.GetBytes(string.Concat(lines.Select(each => each + '\n'))), "journal");
        Assert.Equal($"journal, line {line + 1}", journal.Damage?.Place);
    }

    private static byte[] Journal(int entries)
    {
        var disk = new FullDisk(long.MaxValue);
        using (var journal = new FileJournal(disk, JournalFile.Empty))
            for (var number = 0; number < entries; number++)
                Assert.True(journal.TryAppend(Entry(number), out _));
        return disk.Contents;
    }

    private static JournalEntry Entry(int number) => number == 0
        ? new(0, 0, JournalKind.Begin) { Format = FileJournal.Format, Machine = "Plötter", At = DateTimeOffset.UnixEpoch }
        : new(number, number * 0.1, JournalKind.Done) { Records = number, Position = "1 2 3 a" };
}

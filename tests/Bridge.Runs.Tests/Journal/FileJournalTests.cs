using System.Text;
using System.Text.Json;
using Bridge.Jobs;

namespace Bridge.Runs.Tests;

public class FileJournalTests
{
    private static readonly JsonSerializerOptions Serializing = new(JsonSerializerDefaults.Web);

    [Fact]
    public void What_was_appended_is_read_back_in_order()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        using (var journal = new FileJournal(path))
            for (var number = 0; number < 5; number++)
                Assert.True(journal.TryAppend(Entry(number), out _));
        Assert.Equal([0, 1, 2, 3, 4], JournalFile.Read(path).Entries.Select(entry => entry.N));
    }

    [Fact]
    public void An_entry_is_on_the_disk_before_the_next_step()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        using var journal = new FileJournal(path);
        Assert.True(journal.TryAppend(Entry(0), out _));
        Assert.Single(JournalFile.Read(path).Entries);
    }

    [Fact]
    public void A_disk_that_fills_at_any_octet_leaves_whole_entries_and_goes_on_when_there_is_room()
    {
        var whole = new FullDisk(long.MaxValue);
        using (var journal = new FileJournal(whole, JournalFile.Empty))
            for (var number = 0; number < 3; number++)
                journal.TryAppend(Entry(number), out _);
        for (var room = 0; room < whole.Contents.Length; room++)
        {
            var disk = new FullDisk(room);
            using var journal = new FileJournal(disk, JournalFile.Empty);
            var acknowledged = Enumerable.Range(0, 3).TakeWhile(number => journal.TryAppend(Entry(number), out _)).Count();
            disk.Room = long.MaxValue;
            for (var number = acknowledged; number < 3; number++)
                Assert.True(journal.TryAppend(Entry(number), out _));
            Assert.Equal(whole.Contents, disk.Contents);
        }
    }

    [Fact]
    public void A_cut_last_line_is_left_out_and_all_before_it_are_read()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        foreach (var cut in Cuts(path))
        {
            File.WriteAllBytes(path, cut);
            var entries = JournalFile.Read(path).Entries.Count;
            var lines = cut.Count(octet => octet == '\n');
            Assert.Equal(lines, entries);
        }
    }

    [Fact]
    public void A_journal_that_is_gone_on_with_loses_its_cut_last_line_and_nothing_else()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        foreach (var cut in Cuts(path))
        {
            File.WriteAllBytes(path, cut);
            var read = JournalFile.Read(path);
            using (var journal = FileJournal.GoOn(path, read))
                for (var number = read.Entries.Count; number < 4; number++)
                    Assert.True(journal.TryAppend(Entry(number), out _));
            Assert.Equal([0, 1, 2, 3], JournalFile.Read(path).Entries.Select(entry => entry.N));
        }
    }

    [Fact]
    public void Two_programs_do_not_go_on_with_one_journal()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        using (new FileJournal(path))
            Assert.Throws<IOException>(() => FileJournal.GoOn(path, JournalFile.Empty));
    }

    [Fact]
    public void A_journal_that_another_program_has_gone_on_with_since_it_was_read_stays_as_that_left_it()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        foreach (var cut in Cuts(path))
        {
            File.WriteAllBytes(path, cut);
            var (one, other) = (JournalFile.Read(path), JournalFile.Read(path));
            using (var journal = FileJournal.GoOn(path, other))
                for (var number = other.Entries.Count; number < 4; number++)
                    Assert.True(journal.TryAppend(Entry(number), out _));
            var left = File.ReadAllBytes(path);
            Assert.Contains("meanwhile", Assert.Throws<IOException>(() => FileJournal.GoOn(path, one)).Message);
            Assert.Equal(left, File.ReadAllBytes(path));
            FileJournal.GoOn(path, JournalFile.Read(path)).Dispose(); // nobody holds it
        }
    }

    [Theory]
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Done\"}\n", "line 1")] // no Begin
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":3}\n", "line 1")]
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":1}\n{\"n\":2,\"seconds\":0,\"kind\":\"End\"}\n", "line 2")]
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":1}\nnoise\n{\"n\":1,\"seconds\":0,\"kind\":\"End\"}\n", "line 2")]
    [InlineData("null\n", "line 1")]
    public void A_journal_that_was_changed_is_refused_with_its_line(string text, string line)
    {
        var refused = Assert.Throws<RefusedException>(() => JournalFile.Parse(Encoding.UTF8.GetBytes(text), "journal"));
        Assert.Equal($"journal, {line}", refused.Refusals[0].Place);
    }

    [Theory]
    [InlineData("{\"n\":99,\"seconds\":18.9793,\"kind\":\"Done\",\"records\":42,\"cells\":9,\"position\":\"178 1 1 a\",\"chain\":\"a6a3\"}")]
    [InlineData("{\"n\":100,\"seconds\":19,\"kind\":\"Sent\",\"records\":60}")]
    [InlineData("{\"n\":3,\"seconds\":1e-3,\"kind\":\"State\",\"state\":\"Held\",\"cause\":\"Operator\",\"records\":2}")]
    [InlineData("{\"N\":7,\"seconds\":0.5,\"kind\":\"Done\",\"later\":{\"than\":[1]},\"records\":null}")]
    [InlineData("{\"n\":7,\"seconds\":\"0.5\",\"kind\":\"done\",\"records\":9223372036854775808}")]
    [InlineData("{\"kind\":\"\\u0044one\",\"n\":7,\"n\":8,\"seconds\":0.5,\"position\":\"\\t\"} ")]
    public void A_line_is_read_as_the_serializer_reads_it_and_so_it_is_with_any_octet_changed(string line)
    {
        var octets = Encoding.UTF8.GetBytes(line);
        Assert.Equal(Serialized(octets), JournalFile.TryReadEntry(octets));
        for (var at = 0; at < octets.Length; at++)
            foreach (var other in "\0 \"\\{}[],:0-9.eDSn\x7F"u8.ToArray().Append((byte)0xFF))
            {
                var changed = (byte[])octets.Clone();
                changed[at] = other;
                Assert.Equal(Serialized(changed), JournalFile.TryReadEntry(changed));
            }
    }

    // What is left of a journal of three entries that is cut at each octet.
    private static IEnumerable<byte[]> Cuts(string path)
    {
        using (var journal = new FileJournal(path))
            for (var number = 0; number < 3; number++)
                journal.TryAppend(Entry(number), out _);
        var bytes = File.ReadAllBytes(path);
        return Enumerable.Range(0, bytes.Length + 1).Select(length => bytes[..length]);
    }

    private static JournalEntry? Serialized(byte[] line)
    {
        try
        {
            return JsonSerializer.Deserialize<JournalEntry>(line, Serializing);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    [Theory]
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Done\"}\n",
        "found Done of format unknown; allowed: Begin of format 1 to 2. It may come from another version of this program.")]
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":3}\n", "found Begin of format 3; allowed: Begin of format 1 to 2. ")]
    [InlineData("noise\n", "found no whole entry; allowed: one entry of JSON in each line. The journal was changed or damaged: do not go on from it.")]
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":1}\n{\"n\":2,\"seconds\":0,\"kind\":\"End\"}\n",
        "found entry 2; allowed: entry 1. The journal")]
    [InlineData("{\"n\":0,\"seconds\":0,\"kind\":\"Begin\",\"format\":2}\n",
        "found an entry that does not continue the chain; allowed: what was written there, with its chain to the line before. The journal")]
    public void A_journal_that_was_changed_is_told_with_what_was_found_and_what_was_to_be_there(string text, string words)
    {
        var octets = Encoding.UTF8.GetBytes(text);
        Assert.Contains(words, Assert.Throws<RefusedException>(() => JournalFile.Parse(octets, "journal")).Message);
        Assert.Contains(words, JournalFile.Examine(octets, "journal").Damage!.ToString());
    }

    [Fact]
    public void Of_a_damaged_journal_what_comes_before_is_kept_with_its_length_and_its_link()
    {
        var disk = new FullDisk(long.MaxValue);
        string link;
        using (var journal = new FileJournal(disk, JournalFile.Empty))
        {
            journal.TryAppend(Entry(0), out _);
            journal.TryAppend(Entry(1), out _);
            link = journal.Chain!.Value.ToString();
        }

        var whole = disk.Contents.Length;
        disk.Write("noise\n"u8.ToArray(), 0, 6);
        var read = JournalFile.Examine(disk.Contents, "journal");
        Assert.Equal((2, whole, link), (read.Entries.Count, read.WholeLength, read.Chain.ToString()));
        var nothing = JournalFile.Examine("noise\n"u8.ToArray(), "journal");
        Assert.Equal((0, 0, JournalChain.Start), (nothing.Entries.Count, nothing.WholeLength, nothing.Chain));
    }

    [Fact]
    public void A_journal_that_is_there_already_is_not_begun_anew_and_its_lock_is_let_go()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        using (var journal = new FileJournal(path))
        {
            journal.TryAppend(Entry(0), out _);
            Assert.True(File.Exists(path + ".lock"));
        }

        Assert.Throws<IOException>(() => new FileJournal(path));
        Assert.False(File.Exists(path + ".lock"));
        using var again = FileJournal.GoOn(path, JournalFile.Read(path));
        Assert.True(again.TryAppend(Entry(1), out var why));
        Assert.Empty(why);
    }

    [Fact]
    public void A_write_that_fails_says_why()
    {
        using var journal = new FileJournal(new FullDisk(10), JournalFile.Empty);
        Assert.False(journal.TryAppend(Entry(0), out var why));
        Assert.Equal("No space left on device", why);
    }

    private static JournalEntry Entry(int number) => number == 0
        ? new(0, 0, JournalKind.Begin) { Format = FileJournal.Format }
        : new(number, number * 0.1, JournalKind.Done) { Records = number, Position = "1 2 3 a" };
}

namespace Bridge.Runs.Tests;

public class FileJournalTests
{
    [Fact]
    public void What_was_appended_is_read_back_in_order()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        using (var journal = new FileJournal(path))
            for (var number = 0; number < 5; number++)
                Assert.True(journal.TryAppend(Entry(number), out _));
        Assert.Equal([0, 1, 2, 3, 4], FileJournal.Read(path).Select(entry => entry.N));
    }

    [Fact]
    public void An_entry_is_on_the_disk_before_the_next_step()
    {
        using var folder = new TemporaryFolder();
        var path = folder.In("journal.jsonl");
        using var journal = new FileJournal(path);
        Assert.True(journal.TryAppend(Entry(0), out _));
        Assert.Single(FileJournal.Read(path));
    }

    [Fact]
    public void A_disk_that_fills_at_any_octet_leaves_whole_entries_and_goes_on_when_there_is_room()
    {
        var whole = new FullDisk(long.MaxValue);
        using (var journal = new FileJournal(whole))
            for (var number = 0; number < 3; number++)
                journal.TryAppend(Entry(number), out _);
        for (var room = 0; room < whole.Contents.Length; room++)
        {
            var disk = new FullDisk(room);
            using var journal = new FileJournal(disk);
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
        using (var journal = new FileJournal(path))
            for (var number = 0; number < 3; number++)
                journal.TryAppend(Entry(number), out _);
        var bytes = File.ReadAllBytes(path);
        for (var length = 0; length <= bytes.Length; length++)
        {
            File.WriteAllBytes(path, bytes[..length]);
            var entries = FileJournal.Read(path).Count();
            var lines = bytes[..length].Count(octet => octet == '\n');
            Assert.InRange(entries, lines, lines + 1);
        }
    }

    private static JournalEntry Entry(int number) => new(number, number * 0.1, JournalKind.Done) { Records = number, Position = "1 2 3 a" };
}

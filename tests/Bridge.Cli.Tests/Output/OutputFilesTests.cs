using Bridge.Jobs;

namespace Bridge.Cli.Tests;

public sealed class OutputFilesTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void All_files_are_written_and_nothing_else_is_left()
    {
        _folder.Write("a", "old");
        new OutputFiles([], ("--out", _folder.In("a")), ("--image", _folder.In("b"))).Write("new"u8.ToArray(), "too"u8.ToArray());
        Assert.Equal(["a", "b"], _folder.Names);
        Assert.Equal(("new", "too"), (File.ReadAllText(_folder.In("a")), File.ReadAllText(_folder.In("b"))));
    }

    [Fact]
    public void Where_one_cannot_be_written_none_is()
    {
        _folder.Write("a", "old");
        var other = Directory.CreateDirectory(_folder.In("other")).FullName;
        var files = new OutputFiles([], ("--out", _folder.In("a")), ("--image", Path.Combine(other, "b")));
        Directory.Delete(other);
        Assert.Throws<RefusedException>(() => files.Write("new"u8.ToArray(), "too"u8.ToArray()));
        Assert.Equal("old", File.ReadAllText(_folder.In("a")));
        Assert.Equal(["a"], _folder.Names);
    }

    [Fact]
    public void What_cannot_be_written_is_known_before_the_work()
    {
        Assert.Throws<RefusedException>(() => new OutputFiles([], ("--out", _folder.In(new string('n', 300)))));
        Assert.Empty(_folder.Names);
    }

    [Fact]
    public void Looking_at_a_file_leaves_it_as_it_is()
    {
        _folder.Write("a", "old");
        _ = new OutputFiles([], ("--out", _folder.In("a")), ("--image", _folder.In("b")));
        Assert.Equal("old", File.ReadAllText(_folder.In("a")));
        Assert.Equal(["a"], _folder.Names);
    }

    [Fact]
    public void A_name_as_long_as_names_may_be_is_written()
    {
        new OutputFiles([], ("--out", _folder.In(new string('n', 255)))).Write("new"u8.ToArray());
        Assert.Single(_folder.Names);
    }

    [Theory]
    [InlineData("journal.jsonl")]
    [InlineData("new.html")]
    [InlineData("pictures/layer-000.png")]
    public void What_a_run_left_is_not_written_into(string name)
    {
        Directory.CreateDirectory(_folder.In("run/pictures"));
        _folder.Write("run/journal.jsonl", "old");
        var refused = Assert.Throws<RefusedException>(() => new OutputFiles([], ("--out", _folder.In($"run/{name}"))));
        Assert.Contains("the folder of a run", refused.Message);
        Assert.Equal("old", File.ReadAllText(_folder.In("run/journal.jsonl")));
        new OutputFiles([], ("--out", _folder.In("run.html"))).Write("new"u8.ToArray());
    }

    [Fact]
    public async Task No_pictures_are_drawn_into_the_folder_of_a_run()
    {
        Directory.CreateDirectory(_folder.In("run/pictures"));
        _folder.Write("run/journal.jsonl", "old");
        (await InProcess.Run("show", await _folder.KiteJob(), "--pictures", _folder.In("run/pictures"))).AssertRefused("the folder of a run");
        Assert.Empty(Directory.GetFiles(_folder.In("run/pictures")));
        Assert.Equal(0, (await InProcess.Run("show", await _folder.KiteJob(), "--pictures", _folder.In("pictures"))).ExitCode);
        Assert.NotEmpty(Directory.GetFiles(_folder.In("pictures")));
    }

    [Fact]
    public void A_machine_file_or_a_mesh_is_replaced_by_nothing_but_the_change_that_was_asked_for()
    {
        foreach (var name in new[] { "mine.toml", "part.STL" })
        {
            _folder.Write(name, "old");
            Assert.Contains("a person made", Assert.Throws<RefusedException>(() => new OutputFiles([], ("--out", _folder.In(name)))).Message);
        }

        new OutputFiles([], ("--machine", _folder.In("mine.toml"))).Write("new"u8.ToArray());
        Assert.Equal("new", File.ReadAllText(_folder.In("mine.toml")));
    }

    [LinuxFact]
    public void A_file_is_known_behind_its_links()
    {
        _folder.Write("shape", "old");
        Directory.CreateSymbolicLink(_folder.In("here"), _folder.Path);
        File.CreateSymbolicLink(_folder.In("link"), "here/shape");
        Assert.Throws<RefusedException>(() => new OutputFiles([_folder.In("shape")], ("--out", _folder.In("link"))));
        new OutputFiles([], ("--out", _folder.In("link"))).Write("new"u8.ToArray());
        Assert.Equal("new", File.ReadAllText(_folder.In("shape")));
        Assert.NotNull(new FileInfo(_folder.In("link")).LinkTarget);
    }

    [LinuxFact]
    public void Links_that_go_in_a_circle_are_refused()
    {
        File.CreateSymbolicLink(_folder.In("one"), "two");
        File.CreateSymbolicLink(_folder.In("two"), "one");
        Assert.Throws<RefusedException>(() => new OutputFiles([], ("--out", _folder.In("one"))));
    }

    [LinuxFact]
    public void A_device_of_the_system_is_not_replaced_by_a_file() =>
        Assert.Throws<RefusedException>(() => new OutputFiles([], ("--out", "/dev/null")));
}

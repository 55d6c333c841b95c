namespace Bridge.Cli.Tests;

/// <summary>Whatever is wrong with a file, each command that reads it refuses it in words.</summary>
public sealed class RefusedInputTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("plan FILE --machine PLOTTER", ".txt")]
    [InlineData("plan FILE --machine PLOTTER", ".csv")]
    [InlineData("plan FILE --machine PLOTTER", ".png")]
    [InlineData("plan KITE --machine FILE", ".toml")]
    [InlineData("check FILE --machine PLOTTER", ".job")]
    [InlineData("check FILE --machine PLOTTER --raw", ".bin")]
    [InlineData("check JOB --machine FILE", ".toml")]
    [InlineData("check JOB --machine PLOTTER --shape FILE", ".txt")]
    [InlineData("show FILE", ".job")]
    [InlineData("show JOB --machine FILE", ".toml")]
    [InlineData("run FILE --machine PLOTTER --fast --runs RUNS", ".job")]
    [InlineData("run JOB --machine FILE --fast --runs RUNS", ".toml")]
    public async Task A_bad_file_is_refused_by_name(string words, string extension)
    {
        var job = await _folder.KiteJob();
        foreach (var bad in BadFiles(extension))
        {
            var args = words.Split(' ').Select(word => word switch
            {
                "FILE" => bad,
                "PLOTTER" => _folder.Plotter,
                "KITE" => _folder.Kite,
                "JOB" => job,
                "RUNS" => _folder.In("runs"),
                _ => word,
            });
            (await InProcess.Run([.. args])).AssertRefused(Shown.Of(Path.GetFileName(bad)));
        }

        Assert.False(Directory.Exists(_folder.In("runs")));
    }

    [LinuxFact]
    public async Task A_huge_file_is_refused_before_it_is_read()
    {
        var huge = _folder.In("huge.txt");
        using (var file = File.Create(huge))
            file.SetLength(1L << 40); // a hole: it takes no room
        (await InProcess.Run("plan", huge, "--machine", _folder.Plotter)).AssertRefused("1099511627776 bytes");
        (await InProcess.Run("plan", _folder.Kite, "--machine", huge)).AssertRefused("1099511627776 bytes");
        (await InProcess.Run("show", huge)).AssertRefused("1099511627776 bytes");
    }

    [Fact]
    public async Task A_shape_of_another_kind_is_refused() =>
        (await InProcess.Run("plan", _folder.Write("kite.doc", "A"), "--machine", _folder.Plotter)).AssertRefused(".txt, .csv, .png");

    private IEnumerable<string> BadFiles(string extension)
    {
        var garbage = new byte[4999]; // no whole number of records
        new Random(5).NextBytes(garbage);
        yield return _folder.In("missing" + extension);
        yield return Directory.CreateDirectory(_folder.In("folder" + extension)).FullName;
        yield return _folder.Write("empty" + extension, "");
        yield return _folder.Write("garbage" + extension, garbage);
        yield return _folder.In(new string('n', 300) + extension);
        yield return _folder.In("no\0thing" + extension);
    }
}

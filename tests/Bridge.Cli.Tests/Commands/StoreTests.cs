namespace Bridge.Cli.Tests;

public sealed class StoreTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_proved_job_is_stored_in_the_mock_device_and_read_back()
    {
        var ran = await InProcess.Run("store", await _folder.KiteJob(), "--machine", _folder.Plotter);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("read back and compared", ran.Output);
    }

    [Fact]
    public async Task A_job_for_another_machine_is_refused_and_nothing_is_stored()
    {
        var ran = await InProcess.Run("store", await _folder.KiteJob(), "--machine", _folder.Gantry);
        Assert.Equal(1, ran.ExitCode);
        Assert.DoesNotContain("Stored", ran.Output);
    }

    [Fact]
    public async Task A_store_with_nothing_in_it_is_said_so_with_code_5()
    {
        var ran = await InProcess.Run("store", "--read", "--out", _folder.In("back"), "--machine", _folder.Plotter);
        Assert.Equal(5, ran.ExitCode);
        Assert.Contains("no job is stored in it", ran.Error);
        Assert.False(File.Exists(_folder.In("back")));
    }

    [Theory]
    [InlineData("store --machine m.toml")]
    [InlineData("store a.job --read --out b --machine m.toml")]
    [InlineData("store --read --machine m.toml")]
    [InlineData("store a.job --out b --machine m.toml")]
    public async Task Writing_and_reading_are_not_mixed(string words)
    {
        var ran = await InProcess.Run(words.Split(' '));
        Assert.Equal(2, ran.ExitCode);
    }
}

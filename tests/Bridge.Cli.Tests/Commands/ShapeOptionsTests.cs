namespace Bridge.Cli.Tests;

public sealed class ShapeOptionsTests : IDisposable
{
    private const string Ring = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 8 8'><circle cx='4' cy='4' r='3.5'/><text>o</text></svg>";

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task A_drawing_is_planned_at_its_size_and_place_and_checked_with_the_same_words()
    {
        var ring = _folder.Write("ring.svg", Ring);
        string[] words = ["--size", "9", "--place", "3,2", "--turn", "45", "--hollow", "1"];
        var ran = await InProcess.Run(["plan", ring, "--machine", _folder.Plotter, "--out", _folder.In("ring.job"), .. words]);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Contains("Caution: ", ran.Output);
        Assert.Contains("not drawn: text.", ran.Output);
        var check = await InProcess.Run(["check", _folder.In("ring.job"), "--machine", _folder.Plotter, "--shape", ring, .. words]);
        Assert.Equal((0, ""), (check.ExitCode, check.Error));
        Assert.Equal(1, (await InProcess.Run("check", _folder.In("ring.job"), "--machine", _folder.Plotter, "--shape", ring)).ExitCode);
    }

    [Theory]
    [InlineData("--size", "0")]
    [InlineData("--size", "4cm")]
    [InlineData("--place", "3")]
    [InlineData("--place", "-3,2")]
    [InlineData("--turn", "north")]
    [InlineData("--hollow", "-1")]
    public async Task A_word_that_is_no_size_place_or_turn_is_misused(string option, string word) =>
        (await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, option, word)).AssertMisused(option);

    [Fact]
    public async Task An_option_that_makes_no_sense_for_the_file_is_refused()
    {
        (await InProcess.Run("plan", _folder.Kite, "--machine", _folder.Plotter, "--size", "4")).AssertRefused("a size asked for");
        (await InProcess.Run("plan", _folder.Write("ring.svg", Ring), "--machine", _folder.Plotter, "--size", "17")).AssertRefused("17 x 17 cells");
        (await InProcess.Run("plan", _folder.Write("bad.svg", "<svg>&boom;</svg>"), "--machine", _folder.Plotter)).AssertRefused("entity");
    }
}

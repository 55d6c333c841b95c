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

    [Fact]
    public async Task Text_is_planned_and_checked_in_place_of_a_file()
    {
        string[] words = ["--text", "Hi\\nyo", "--height", "5", "--machine", _folder.Plotter];
        var ran = await InProcess.Run(["plan", "--out", _folder.In("hi.job"), .. words]);
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.StartsWith("text on ", ran.Output);
        Assert.Equal(0, (await InProcess.Run(["check", _folder.In("hi.job"), .. words])).ExitCode);
        var font = _folder.Write("own.jhf", "    1  1JZ\n    2  5RRRFRN RRR\n");
        Assert.Equal(0, (await InProcess.Run("plan", "--text", "!", "--font", font, "--machine", _folder.Plotter)).ExitCode);
        (await InProcess.Run("plan", "--text", "?", "--font", font, "--machine", _folder.Plotter)).AssertRefused("'?'");
    }

    [Fact]
    public async Task A_file_and_text_together_or_neither_are_misused()
    {
        (await InProcess.Run("plan", _folder.Kite, "--text", "a", "--machine", _folder.Plotter)).AssertMisused("SHAPE: found a file and --text");
        (await InProcess.Run("plan", "--machine", _folder.Plotter)).AssertMisused("SHAPE: found nothing");
        (await InProcess.Run("plan", _folder.Kite, "--height", "7", "--machine", _folder.Plotter)).AssertMisused("--font, --height");
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

using System.Diagnostics;

namespace Bridge.Cli.Tests;

/// <summary>The program and the firmware's core, each a process, with a pseudo-terminal between them.</summary>
public sealed class NativeBoardTests : IDisposable
{
    private const int Held = 11;
    private const int LineSilent = 7;
    private const string Patch = "600033" + "000000"; // 16 cells

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NativeBoardFact]
    public async Task A_whole_job_is_run_on_the_core()
    {
        using var board = await NativeBoard.Start();
        using var run = StartRun(board, Patch, seconds: 0.02);
        var ran = await run.End();
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("Complete: ", ran.Output);
        Assert.Equal(16, (await board.Look()).Worked);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        Assert.Contains("\"workedByA\": 16", File.ReadAllText(Path.Combine(folder, "summary.json")));
    }

    [NativeBoardFact]
    public async Task A_line_that_is_pulled_in_a_run_is_lost_with_words_of_what_to_do()
    {
        using var board = await NativeBoard.Start();
        using var run = StartRun(board, Patch, seconds: 1);
        await Until(async () => (await board.Look()).Worked >= 2);
        board.Kill();
        var ran = await run.End();
        Assert.True(ran.ExitCode == 5, ran.Output + ran.Error);
        Assert.Contains("LineLost: ", ran.Output);
        Assert.Contains("press the e-stop", ran.Output);
    }

    [NativeBoardFact]
    public async Task A_core_whose_host_is_gone_in_a_run_holds_and_stays_so()
    {
        using var board = await NativeBoard.Start();
        using var run = StartRun(board, Patch, seconds: 1);
        await Until(async () => (await board.Look()).Worked >= 2);
        run.Signal("KILL");
        await Until(async () => (await board.Look()).State == Held);
        var (_, cause, worked) = await board.Look();
        Assert.Equal(LineSilent, cause);
        await Task.Delay(2000);
        Assert.Equal((Held, LineSilent, worked), await board.Look());
    }

    [NativeBoardFact]
    public async Task A_job_is_stored_in_the_core_and_read_back()
    {
        using var board = await NativeBoard.Start();
        var machine = Machine(seconds: 0.02);
        string[] to = ["--machine", machine, "--device", board.PortName];
        var image = Convert.FromHexString("400003" + "A00001" + Patch);
        var stored = await BridgeProcess.Run(_folder.Path, ["store", _folder.Write("image", image), "--raw", .. to]);
        Assert.True(stored.ExitCode == 0, stored.Output + stored.Error);
        Assert.Contains("Stored: 4 records, 12 bytes, read back and compared.", stored.Output);
        var read = await BridgeProcess.Run(_folder.Path, ["store", "--read", "--out", _folder.In("back"), .. to]);
        Assert.True(read.ExitCode == 0, read.Output + read.Error);
        Assert.Equal(image, File.ReadAllBytes(_folder.In("back")));
    }

    private BridgeProcess StartRun(NativeBoard board, string hex, double seconds) => BridgeProcess.Start(_folder.Path, "run",
        _folder.Write("image", Convert.FromHexString(hex)), "--raw", "--machine", Machine(seconds), "--device", board.PortName, "--unattended");

    /// <summary>The quick machine at speeds that a small controller can make.</summary>
    private string Machine(double seconds)
    {
        var path = _folder.Quick(seconds);
        File.WriteAllText(path, File.ReadAllText(path).Replace("top_speed_mm_s = 1000", "top_speed_mm_s = 400", StringComparison.Ordinal));
        return path;
    }

    private static async Task Until(Func<Task<bool>> holds)
    {
        var waiting = Stopwatch.StartNew();
        while (!await holds())
        {
            Assert.True(waiting.Elapsed < TimeSpan.FromSeconds(40), "it never came to that");
            await Task.Delay(20);
        }
    }
}

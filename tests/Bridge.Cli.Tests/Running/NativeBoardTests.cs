
namespace Bridge.Cli.Tests;

/// <summary>The program and the firmware's core, each a process, with a pseudo-terminal between them.</summary>
public sealed class NativeBoardTests : IDisposable
{
    private const int Held = 11;
    private const int LineSilent = 7;
    private const string Patch = "600033" + "000000"; // 16 cells
    private const int Dots = 48; // as many records, of which the core has room for 16

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
    public async Task A_run_that_nobody_attends_says_so_and_its_folder_says_that_nobody_answered()
    {
        using var board = await NativeBoard.Start();
        using var run = StartRun(board, Patch, seconds: 0.02);
        var ran = await run.End();
        Assert.Contains("Nobody is asked the checklist", ran.Output);
        var record = File.ReadAllText(Path.Combine(Assert.Single(Directory.GetDirectories(_folder.In("runs"))), "checklist.json"));
        Assert.DoesNotContain("operator", record);
        Assert.DoesNotContain("eStopTried", record);
        Assert.Contains("\"answers\": []", record);
    }

    [NativeBoardFact]
    public async Task A_line_that_is_pulled_in_a_run_is_lost_with_words_of_what_to_do()
    {
        using var board = await NativeBoard.Start();
        using var run = StartRun(board, Patch, seconds: 1);
        await board.Until(look => look.Worked >= 2);
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
        await board.Until(look => look.Worked >= 2);
        run.Signal("KILL");
        await board.Until(look => look.State == Held);
        var (_, cause, worked) = await board.Look();
        Assert.Equal(LineSilent, cause);
        await Task.Delay(2000);
        Assert.Equal((Held, LineSilent, worked), await board.Look());
    }

    [NativeBoardFact]
    public async Task A_held_run_is_not_ended_by_a_hand()
    {
        using var board = await NativeBoard.Start();
        using var run = StartRun(board, Patch, seconds: 1);
        await board.Until(look => look.Worked >= 2);
        run.Signal("KILL");
        await board.Until(look => look.State == Held);
        var held = await board.Look();
        var ran = await BridgeProcess.Run(
            _folder.Path, "reference", "--machine", _folder.QuickBoard(1), "--device", board.PortName, "--unattended");
        Assert.Equal(5, ran.ExitCode);
        Assert.Contains("Go on with it by bridge run --resume", ran.Error);
        Assert.Equal(held, await board.Look());
    }

    [NativeBoardFact]
    public async Task A_run_whose_host_was_killed_goes_on_at_the_next_cell_and_its_picture_is_whole()
    {
        using var board = await NativeBoard.Start();
        var thrice = string.Concat(Enumerable.Range(0, Dots).Select(dot => $"40{dot % 4:X}{dot / 4 % 4:X}00"));
        using var run = StartRun(board, thrice + "000000", seconds: 0.1);
        await board.Until(look => look.Worked >= 5);
        run.Signal("KILL");
        await board.Until(look => look.State == Held);
        Assert.InRange((await board.Look()).Worked, 5, Dots - 8); // what it had room for, and not the rest
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        var ran = await BridgeProcess.Run(_folder.Path, "run", "--resume", folder, "--device", board.PortName, "--unattended");
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("nothing is in doubt", ran.Output);
        Assert.Equal(Dots, (await board.Look()).Worked);
        Assert.Contains($"\"workedByA\": {Dots}", File.ReadAllText(Path.Combine(folder, "summary.json")));
        await BridgeProcess.Run(_folder.Path, "show", _folder.In("image"), "--raw", "--machine", _folder.In("quick.toml"), "--pictures", "whole");
        Assert.Equal(File.ReadAllBytes(_folder.In("whole/layer-000.png")), File.ReadAllBytes(Path.Combine(folder, "pictures", "layer-000.png")));
    }

    [NativeBoardFact]
    public async Task A_run_whose_board_was_reset_is_gone_on_with_on_another_word()
    {
        string folder;
        int worked;
        using (var board = await NativeBoard.Start())
        {
            using var run = StartRun(board, Patch, seconds: 0.3);
            await board.Until(look => look.Worked >= 5);
            worked = (await board.Look()).Worked;
            board.Kill();
            Assert.Equal(5, (await run.End()).ExitCode);
            folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        }

        using var fresh = await NativeBoard.Start();
        string[] resume = ["run", "--resume", folder, "--device", fresh.PortName, "--unattended"];
        var asked = await BridgeProcess.Run(_folder.Path, resume);
        asked.AssertRefused("work in doubt");
        Assert.Contains("In doubt: record 0, patch: head a works 4 x 4 cells", asked.Output);
        Assert.Equal(0, (await fresh.Look()).Worked);
        var ran = await BridgeProcess.Run(_folder.Path, [.. resume, "--in-doubt", "redo"]);
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.InRange((await fresh.Look()).Worked, 16 - worked - 1, 16 - worked + 2);
        Assert.Contains("\"workedByA\": 16", File.ReadAllText(Path.Combine(folder, "summary.json")));
    }

    [NativeBoardFact]
    public async Task A_run_that_the_board_had_completed_before_its_estop_was_tried_has_nothing_left()
    {
        using var board = await NativeBoard.Start();
        using var run = StartRun(board, Patch, seconds: 0.02);
        Assert.Equal(0, (await run.End()).ExitCode);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        var journal = Path.Combine(folder, "journal.jsonl");
        var untilEnd = File.ReadAllLines(journal).TakeWhile(line => !line.Contains("\"End\"", StringComparison.Ordinal));
        File.WriteAllLines(journal, untilEnd); // as of a program that was cut off
        using var again = BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' run --resume {folder} --device {board.PortName}");
        await board.LookOver(again);
        var ran = await again.End();
        Assert.True(ran.ExitCode == 1, ran.Output);
        Assert.Contains("Nothing is left to do.", ran.Output);
        Assert.DoesNotContain("has the run still", ran.Output);
    }

    [NativeBoardFact]
    public async Task A_job_is_stored_in_the_core_and_read_back()
    {
        using var board = await NativeBoard.Start();
        var machine = _folder.QuickBoard(0.02);
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
        _folder.Write("image", Convert.FromHexString(hex)), "--raw", "--machine", _folder.QuickBoard(seconds), "--device", board.PortName, "--unattended");
}

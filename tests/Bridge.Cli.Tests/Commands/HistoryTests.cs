namespace Bridge.Cli.Tests;

public sealed class HistoryTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Runs_are_listed_filtered_and_given_out_as_data()
    {
        await Run();
        await Run("--faults", "estop-at=5");
        var all = await History("runs");
        Assert.Contains("Complete", all.Output);
        Assert.Contains("2 runs, ", all.Output);
        var some = await History("runs", "--ended", "aborted", "--csv", _folder.In("runs.csv"), "--jsonl", _folder.In("runs.jsonl"));
        Assert.DoesNotContain("Complete", some.Output);
        Assert.Contains("1 run of 2", some.Output);
        Assert.Equal(2, File.ReadAllLines(_folder.In("runs.csv")).Length);
        Assert.Contains("\"outcome\":\"Aborted\"", Assert.Single(File.ReadAllLines(_folder.In("runs.jsonl"))));
        Assert.Contains("0 runs of 2", (await History("runs", "--after", "2000-01-01", "--before", "2001-01-01")).Output);
        (await InProcess.Run("runs", "--runs", _folder.In("nowhere"))).AssertRefused("no such folder");
    }

    [Fact]
    public async Task Runs_are_removed_on_yes_alone_and_only_those_that_were_chosen()
    {
        var whole = await Run();
        await Run("--faults", "estop-at=5");
        (await History("runs", "--prune")).AssertMisused("--prune: found alone");
        (await History("runs", "--yes")).AssertMisused("--yes: found without --prune");
        Assert.Equal(1, (await History("runs", "--prune", "--ended", "aborted")).ExitCode);
        Assert.Equal(2, Directory.GetDirectories(_folder.In("runs")).Length);
        Assert.Equal(0, (await History("runs", "--prune", "--ended", "aborted", "--yes")).ExitCode);
        Assert.Equal([whole], Directory.GetDirectories(_folder.In("runs")));
    }

    [Fact]
    public async Task A_run_is_verified_by_the_seal_that_it_named_and_a_changed_bit_is_told()
    {
        var ran = await InProcess.Run("run", await _folder.KiteJob(), "--machine", _folder.Plotter, "--fast", "--runs", _folder.In("runs"));
        var seal = ran.Output.Split("Seal: ")[1].Trim();
        var run = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        Assert.Contains("Verified: ", (await InProcess.Run("verify", run, "--seal", seal)).Output);
        Assert.Equal(1, (await InProcess.Run("verify", run, "--seal", new string('0', 32))).ExitCode);
        (await InProcess.Run("verify", run, "--seal", "12")).AssertMisused("--seal: found 12");
        var bytes = File.ReadAllBytes(Path.Combine(run, "journal.jsonl"));
        bytes[bytes.Length / 2] ^= 1;
        File.WriteAllBytes(Path.Combine(run, "journal.jsonl"), bytes);
        var changed = await InProcess.Run("verify", run);
        Assert.Equal(1, changed.ExitCode);
        Assert.Matches("Problem: .*journal.jsonl, line [0-9]+: found ", changed.Output);
        Assert.Contains("Not verified: 1 problem.", changed.Output);
    }

    [Fact]
    public async Task A_report_is_written_beside_the_run_or_where_it_is_wanted()
    {
        var run = await Run("--faults", "skip=x:5:-40");
        var ran = await InProcess.Run("report", run);
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("look at the belt", File.ReadAllText($"{run}.html"));
        Assert.Equal("%PDF", File.ReadAllText($"{run}.pdf")[..4]);
        Assert.Contains("Verified: ", (await InProcess.Run("verify", run)).Output);
        await InProcess.Run("report", run, "--html", _folder.In("a.html"), "--pdf", _folder.In("a.pdf"),
            "--csv", _folder.In("a.csv"), "--jsonl", _folder.In("a.jsonl"));
        Assert.Equal(File.ReadAllLines(_folder.In("a.csv")).Length - 1, File.ReadAllLines(_folder.In("a.jsonl")).Length);
        (await InProcess.Run("report", _folder.Path)).AssertRefused("job.job");
        (await InProcess.Run("report", run, "--html", _folder.Path)).AssertRefused("--html");
    }

    [Fact]
    public async Task Two_runs_are_compared()
    {
        var (one, other) = (await Run(), await Run("--faults", "estop-at=20"));
        var ran = await InProcess.Run("compare", one, other);
        Assert.Contains("They differ first in: course", ran.Output);
        Assert.Contains("Their work differs in ", ran.Output);
        Assert.Contains("They worked the same cells.", (await InProcess.Run("compare", one, one)).Output);
        Assert.Contains("Paired t test (NIST/SEMATECH e-Handbook, 7.3.1.1)", (await InProcess.Run("compare", one, one)).Output);
    }

    [Fact]
    public async Task A_run_is_played_back_to_a_file_as_its_states_and_its_picture()
    {
        var run = await Run("--faults", "estop-at=20");
        var ran = await InProcess.Run("replay", run);
        Assert.Contains("Aborted: motors off (the e-stop is pressed or its wire is cut)", ran.Output);
        Assert.Equal(20, ran.Output[ran.Output.LastIndexOf("done", StringComparison.Ordinal)..].Count(letter => letter == 'A'));
        Assert.DoesNotContain("A", Picture(await InProcess.Run("replay", run, "--at", "1")));
        Assert.StartsWith("0:00:01.0  ", (await InProcess.Run("replay", run, "--at", "1")).Output);
        (await InProcess.Run("replay", run, "--speed", "0")).AssertMisused("--speed: found 0");
        (await InProcess.Run("replay", run, "--at", "-1")).AssertMisused("--at: found -1");
    }

    [Fact]
    public async Task A_replay_tells_the_end_once_and_what_was_in_doubt_where_the_run_was_gone_on_with()
    {
        var run = await Run("--faults", "estop-at=18");
        await InProcess.Run("run", "--resume", run, "--fast", "--in-doubt", "redo");
        var ran = await InProcess.Run("replay", run);
        Assert.Single(ran.Output.Split('\n'), line => line.Contains("  Complete: ", StringComparison.Ordinal));
        Assert.Contains("Gone on with. In record ", ran.Output);
        Assert.Matches("Aborted: .*, [0-9]+ records? and [0-9]+ cells? of the next done", ran.Output);
        Assert.Contains("may have been worked twice, by decision", (await InProcess.Run("replay", run, "--at", "1000")).Output);
    }

    [Fact]
    public async Task A_machines_health_is_told_with_what_to_look_at()
    {
        await Run();
        await Run("--faults", "skip=y:5:-40");
        var ran = await History("health", "--machine", _folder.Plotter, "--html", _folder.In("health.html"));
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("Caution: Axis Y lost 40 steps in its last run: look at the belt", ran.Output);
        Assert.Contains("<svg", File.ReadAllText(_folder.In("health.html")));
    }

    [LinuxFact]
    public async Task A_replay_at_a_terminal_can_be_paused_and_ended_by_keys()
    {
        var run = await Run();
        using var replay = BridgeProcess.StartAtTerminal(_folder.Path, $"{BridgeProcess.Program} replay {run} --speed 1");
        await replay.Says("1 times as fast");
        replay.Type(' ');
        await replay.Says("paused");
        replay.Type('+');
        replay.Type(' ');
        await replay.Says("2 times as fast");
        replay.Type('q');
        Assert.Equal(0, (await replay.End()).ExitCode);
    }

    [LinuxFact]
    public async Task Runs_at_a_terminal_are_a_table_that_fits()
    {
        await Run();
        using var runs = BridgeProcess.StartAtTerminal(_folder.Path, $"{BridgeProcess.Program} runs");
        Assert.Contains("1 run, ", (await runs.End()).Output);
    }

    [MountFact]
    public async Task A_run_on_a_read_only_file_system_is_read_and_what_cannot_be_written_is_told()
    {
        await Run();
        var ran = await Mounted("size=4m", $"""
            mount -o remount,ro disk
            '{BridgeProcess.Program}' runs --runs disk/runs
            '{BridgeProcess.Program}' verify disk/runs/*
            '{BridgeProcess.Program}' report disk/runs/* --html a.html --pdf a.pdf
            '{BridgeProcess.Program}' run kite.job --machine {_folder.Plotter} --fast --runs disk/runs
            '{BridgeProcess.Program}' report disk/runs/*
            """);
        Assert.Equal(1, ran.ExitCode);
        Assert.Contains("1 run, ", ran.Output);
        Assert.Contains("Verified: ", ran.Output);
        Assert.Contains("Written: a.html", ran.Output);
        Assert.Equal(2, ran.ErrorLines.Length);
        Assert.Contains("Nothing was started. Choose another one with --runs.", ran.ErrorLines[0]);
        Assert.Contains(".html: found Read-only file system", ran.ErrorLines[1]);
        Assert.Contains("give --html FILE and --pdf FILE where there is room", ran.ErrorLines[1]);
    }

    [MountFact]
    public async Task On_a_full_disk_a_run_is_read_and_nothing_is_left_half_written()
    {
        await Run();
        var ran = await Mounted("size=400k", $"""
            dd if=/dev/zero of=disk/fill bs=1k count=1000 2> full.txt
            '{BridgeProcess.Program}' verify disk/runs/*
            '{BridgeProcess.Program}' report disk/runs/*
            '{BridgeProcess.Program}' run kite.job --machine {_folder.Plotter} --fast --runs disk/runs
            ls -A disk/runs > left.txt
            """);
        Assert.Contains("Verified: ", ran.Output);
        Assert.Equal(2, ran.ErrorLines.Length);
        Assert.All(ran.ErrorLines, line => Assert.Contains("No space left on device", line));
        Assert.Equal(Directory.GetDirectories(_folder.In("runs")).Select(Path.GetFileName), File.ReadAllLines(_folder.In("left.txt")));
    }

    // A file system with the runs on it, in a place of its own that is gone with the shell.
    private Task<Ran> Mounted(string options, string lines)
    {
        Directory.CreateDirectory(_folder.In("disk"));
        _folder.Write("on-disk.sh", $"mount -t tmpfs -o {options} none disk && cp -r runs disk\n{lines}");
        return BridgeProcess.RunInShell(_folder.Path, "unshare -r -m sh on-disk.sh");
    }

    private static string Picture(Ran ran) => string.Join('\n', ran.Output.Split('\n').Skip(1));

    private Task<Ran> History(params string[] words) => InProcess.Run([.. words, "--runs", _folder.In("runs")]);

    private async Task<string> Run(params string[] more)
    {
        var before = Directory.Exists(_folder.In("runs")) ? Directory.GetDirectories(_folder.In("runs")) : [];
        await InProcess.Run(["run", await _folder.KiteJob(), "--machine", _folder.Plotter, "--fast", "--runs", _folder.In("runs"), .. more]);
        return Assert.Single(Directory.GetDirectories(_folder.In("runs")).Except(before));
    }
}

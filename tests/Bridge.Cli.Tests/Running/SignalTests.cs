namespace Bridge.Cli.Tests;

/// <summary>The real process, in real time, told to end in the middle of a run.</summary>
public sealed class SignalTests : IDisposable
{
    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [LinuxFact]
    public async Task The_first_interrupt_stops_the_machine_in_a_controlled_way()
    {
        using var run = await Executing(secondsPerCell: 0.2);
        run.Signal("INT");
        AssertEnded(await run.End(), 3, "Stopped");
    }

    [LinuxFact]
    public async Task The_second_interrupt_switches_the_motors_off()
    {
        using var run = await Executing(secondsPerCell: 6); // a controlled stop waits for the cell
        run.Signal("INT");
        await run.Says("Stopping: ");
        run.Signal("INT");
        AssertEnded(await run.End(), 4, "Aborted");
    }

    [LinuxFact]
    public async Task A_terminate_signal_stops_the_machine_first()
    {
        using var run = await Executing(secondsPerCell: 0.2);
        run.Signal("TERM");
        AssertEnded(await run.End(), 3, "Stopped");
    }

    [LinuxFact]
    public async Task A_terminal_that_is_closed_stops_the_machine_first()
    {
        using var run = await Executing(secondsPerCell: 0.2);
        run.Signal("HUP");
        AssertEnded(await run.End(), 3, "Stopped");
    }

    [LinuxFact]
    public async Task A_run_whose_caution_cannot_be_shown_is_not_started()
    {
        (await InShell($"run {Image()} --raw --fast --machine {_folder.Quick(0.2)} > /dev/full")).AssertRefused("the output");
        Assert.False(Directory.Exists(_folder.In("runs")));
    }

    [LinuxFact]
    public async Task A_result_that_has_no_room_is_refused()
    {
        (await InShell($"show {Image()} --raw --machine {_folder.Quick(0.2)} > /dev/full")).AssertRefused("the output");
        (await InShell($"check {Image()} --raw --json --machine {_folder.Quick(0.2)} > /dev/full")).AssertRefused("the output");
        (await InShell("plan --help > /dev/full")).AssertRefused("the output");
        Assert.Equal(1, (await InShell($"check {Image()} --raw --machine {_folder.Quick(0.2)} > /dev/full 2>&1")).ExitCode);
    }

    private string Image() => _folder.Write("image", Convert.FromHexString("600033" + "A00009" + "000000")); // 16 cells, ten more times

    private string Summary() => File.ReadAllText(Path.Combine(Assert.Single(Directory.GetDirectories(_folder.In("runs"))), "summary.json"));

    private Task<Ran> InShell(string words) => BridgeProcess.RunInShell(_folder.Path, $"'{BridgeProcess.Program}' {words}");

    private async Task<BridgeProcess> Executing(double secondsPerCell)
    {
        var run = BridgeProcess.Start(_folder.Path, "run", Image(), "--raw", "--machine", _folder.Quick(secondsPerCell));
        await run.Says("Execute: ");
        return run;
    }

    private void AssertEnded(Ran ran, int code, string outcome)
    {
        Assert.True(code == ran.ExitCode, ran.Output + ran.Error);
        Assert.Contains($"{outcome}: The ", ran.Output);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        Assert.Contains($"\"{outcome}\"", Summary());
        var journal = File.ReadLines(Path.Combine(folder, "journal.jsonl")).ToList();
        Assert.Contains($"\"{outcome}\"", journal[^2]); // the last one seals the record
        Assert.Contains("Sealed", journal[^1]);
    }
}

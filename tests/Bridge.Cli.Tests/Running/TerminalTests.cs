namespace Bridge.Cli.Tests;

/// <summary>The real process, at a terminal and away from one.</summary>
public sealed class TerminalTests : IDisposable
{
    private const char Escape = '\u001b';
    private const char ControlC = '\u0003';

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Away_from_a_terminal_the_output_is_plain_and_unwrapped()
    {
        var name = new string('n', 150) + ".csv";
        var ran = await BridgeProcess.Run(_folder.Path, "plan", _folder.Write(name, "A,B"), "--machine", _folder.Plotter, "--out", "x.job");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.DoesNotContain(Escape, ran.Output);
        Assert.Contains(name, ran.Output);
        ran = await BridgeProcess.Run(_folder.Path, "run", "x.job", "--machine", _folder.Plotter, "--fast");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.DoesNotContain(Escape, ran.Output);
        ran = await BridgeProcess.Run(_folder.Path, "show", "[bold]none");
        ran.AssertRefused("[bold]none");
        Assert.Single(ran.ErrorLines);
    }

    [LinuxFact]
    public async Task At_a_terminal_a_run_has_a_bar_and_keys()
    {
        var image = _folder.Write("image", Convert.FromHexString("600033" + "C20000" + "600033" + "000000")); // 16 cells, hold, 16 cells
        using var run = BridgeProcess.StartAtTerminal(_folder.Path, $"'{BridgeProcess.Program}' run {image} --raw --machine {_folder.Quick(0.05)}");
        await run.Says("Keys: ");
        await run.Says("The job waits for you");
        var ran = await run.EndAfterTyping('u');
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Contains($"{Escape}[", ran.Output);
        Assert.Contains("Execute: layer 0, cell", ran.Output);
        Assert.Contains(" left", ran.Output);
        Assert.Contains("100%", ran.Output);
    }

    [LinuxFact]
    public async Task At_a_terminal_the_key_s_stops()
    {
        var image = _folder.Write("image", Convert.FromHexString("600033" + "A00009" + "000000"));
        using var run = BridgeProcess.StartAtTerminal(_folder.Path, $"'{BridgeProcess.Program}' run {image} --raw --machine {_folder.Quick(0.1)}");
        await run.Says("Execute: ");
        run.Type('s');
        Assert.Equal(3, (await run.End()).ExitCode);
    }

    [LinuxFact]
    public async Task At_a_terminal_two_times_control_c_switches_the_motors_off()
    {
        var image = _folder.Write("image", Convert.FromHexString("600033" + "A00009" + "000000"));
        using var run = BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' run {image} --raw --machine {_folder.Quick(6)}");
        await run.Says("Execute: ");
        run.Type(ControlC);
        await run.Says("Ctrl-C again asks it to stop at once");
        await run.Says("Stopping: ");
        run.Type(ControlC);
        var ran = await run.End();
        Assert.True(ran.ExitCode == 4, ran.Output);
        Assert.Contains("Aborted: ", ran.Output);
    }

    [LinuxFact]
    public async Task A_terminal_that_vanishes_in_a_run_stops_the_machine_and_ends_the_run()
    {
        var image = _folder.Write("image", Convert.FromHexString("600033" + "A00009" + "000000"));
        using var run = BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' run {image} --raw --machine {_folder.Quick(0.2)}");
        await run.Says("Execute: ");
        run.Signal("KILL"); // the terminal itself: whoever ran in it is told that it has hung up
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        for (var waited = 0; waited < 200 && !File.Exists(Path.Combine(folder, "summary.json")); waited++)
            await Task.Delay(100);
        Assert.Contains("\"Stopped\"", await File.ReadAllTextAsync(Path.Combine(folder, "summary.json")));
    }

    [LinuxFact]
    public async Task No_colours_are_shown_to_who_wants_none()
    {
        using var run = BridgeProcess.StartAtTerminal(_folder.Path, $"NO_COLOR=1 '{BridgeProcess.Program}' plan {_folder.Kite} --machine {_folder.Plotter}");
        var ran = await run.End();
        Assert.Equal(0, ran.ExitCode);
        Assert.DoesNotMatch(@"\u001b\[(3[0-9]|9[0-7]|4[0-9])", ran.Output); // SGR colours, ECMA-48
        Assert.Contains("26 by head a", ran.Output);
    }
}

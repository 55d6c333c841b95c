namespace Bridge.Cli.Tests;

/// <summary>The real process, stepped from a terminal, from another program, and on the firmware's core.</summary>
public sealed class StepTests : IDisposable
{
    private const int Stopped = 2;
    private const int Aborted = 9;

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [LinuxFact]
    public async Task Away_from_a_terminal_commands_come_line_by_line_and_the_output_is_plain()
    {
        var job = await _folder.KiteJob();
        var ran = await BridgeProcess.RunInShell(_folder.Path,
            $"printf 'record\\nback cell\\nto end\\n' | '{BridgeProcess.Program}' step {job} --machine {_folder.Plotter} --device mock");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.DoesNotContain('\u001b', ran.Output);
        Assert.Contains("its gantry worked 6 cells, each where the job has it", ran.Output);
        Assert.Contains("its gantry worked 5 cells, each where the job has it", ran.Output);
        Assert.Contains("its gantry worked 59 cells, each where the job has it", ran.Output);
    }

    [LinuxFact]
    public async Task A_line_from_another_program_that_is_refused_shows_in_the_exit_code()
    {
        var ran = await BridgeProcess.RunInShell(_folder.Path,
            $"printf 'hop\\n' | '{BridgeProcess.Program}' step {await _folder.KiteJob()} --machine {_folder.Plotter}");
        ran.AssertRefused("hop");
    }

    [Fact]
    public async Task Commands_on_the_command_line_are_done_one_after_another()
    {
        var ran = await InProcess.Run("step", await _folder.KiteJob(), "--machine", _folder.Plotter, "--do", "record", "to head b works", "back");
        Assert.Equal((0, ""), (ran.ExitCode, ran.Error));
        Assert.Equal(4, ran.Output.Split('\n').Count(line => line.StartsWith("at ", StringComparison.Ordinal)));
        ran = await InProcess.Run("step", await _folder.KiteJob(), "--machine", _folder.Plotter, "--device", "mock", "--do", "hop");
        ran.AssertRefused("hop");
    }

    [Fact]
    public async Task A_damaged_job_and_one_for_another_machine_are_refused()
    {
        var job = await _folder.KiteJob();
        (await InProcess.Run("step", job, "--machine", _folder.Gantry)).AssertRefused("16 x 16 x 16");
        var bytes = await File.ReadAllBytesAsync(job);
        bytes[60] ^= 1;
        (await InProcess.Run("step", _folder.Write("damaged.job", bytes), "--machine", _folder.Plotter)).AssertRefused("CRC-32");
        var image = _folder.Write("image", Convert.FromHexString("40F00F" + "000000"));
        (await InProcess.Run("step", image, "--raw", "--machine", _folder.Plotter, "--device", "mock")).AssertRefused("record 0");
    }

    [LinuxFact]
    public async Task At_a_terminal_the_view_is_drawn_anew_with_the_picture_beside_the_facts()
    {
        using var step = BridgeProcess.StartAtTerminal(_folder.Path,
            $"'{BridgeProcess.Program}' step {await _folder.KiteJob()} --machine {_folder.Plotter}");
        await step.Says("none begun");
        step.Type("record\r");
        await step.Says("(10, 5) on layer 0");
        Assert.Contains("\u001b[H\u001b[2J", step.Output);
        Assert.Contains("................  at ", step.Output);
        step.Type("hop\r");
        await step.Says("Refused: what was typed");
        step.Type("leave\r");
        Assert.Equal(0, (await step.End()).ExitCode);
    }

    [NativeBoardFact]
    public async Task While_a_person_thinks_a_board_waits_and_an_e_stop_or_control_c_ends_the_stepping()
    {
        using var board = await NativeBoard.Start();
        var image = _folder.Write("image", Convert.FromHexString("400003" + "443003" + "000000"));
        var words = $"exec '{BridgeProcess.Program}' step {image} --raw --machine {_folder.QuickBoard(0.5)} --device {board.PortName}";
        using (var step = BridgeProcess.StartAtTerminal(_folder.Path, words))
        {
            await board.LookOver(step);
            await step.Says("none begun");
            step.Type("cell\r");
            await step.Says("1 cell worked");
            await Task.Delay(2500); // longer than the line may be silent in motion: it holds by itself
            step.Type("cell\r");
            await step.Says("2 cells worked");
            await board.Do("e-stop open");
            step.Type("cell\r");
            Assert.NotEqual(0, (await step.End()).ExitCode);
            Assert.Equal(Aborted, (await board.Look()).State);
        }

        await board.Do("e-stop closed");
        using var again = BridgeProcess.StartAtTerminal(_folder.Path, words);
        await NativeBoard.Answer(again, NativeBoard.ShortList);
        await again.Says("none begun");
        again.Type("to end\r");
        again.Type('\u0003');
        var ran = await again.End();
        Assert.True(ran.ExitCode == 3, ran.Output);
        Assert.Contains("Asked the machine to stop", ran.Output);
        Assert.Equal(Stopped, (await board.Look()).State);
    }

    [NativeBoardFact]
    public async Task On_a_board_each_step_is_done_and_a_way_back_is_told_before_it_moves()
    {
        using var board = await NativeBoard.Start();
        // Four cells along X, then four along Y from (3, 0).
        var image = _folder.Write("image", Convert.FromHexString("400003" + "443003" + "000000"));
        using var step = BridgeProcess.StartAtTerminal(_folder.Path,
            $"exec '{BridgeProcess.Program}' step {image} --raw --machine {_folder.QuickBoard(0.02)} --device {board.PortName}");
        await board.LookOver(step);
        await step.Says("none begun");
        step.Type("cell 2\r");
        await step.Says("2 cells worked");
        Assert.Equal((80, 0), await board.Place());
        step.Type("record\r");
        await step.Says("4 cells worked");
        step.Type("back 2 cells\r");
        await step.Says("The carriage moves without working from (3, 0) to (1, 0) on layer 0");
        await step.Says("Type yes to go back");
        Assert.Equal((240, 0), await board.Place());
        step.Type("yes\r");
        await step.Says("2 cells by head a", times: 2);
        Assert.Equal((80, 0), await board.Place());
        step.Type("to end\r");
        await step.Says("The job is complete.");
        Assert.Equal((240, 240), await board.Place());
        Assert.Equal(10, (await board.Look()).Worked); // a pen may work a cell twice
        step.Type("leave\r");
        var ran = await step.End();
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Equal(Stopped, (await board.Look()).State);
    }
}

using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;
using Bridge.Wire;
using NSubstitute;

namespace Bridge.Cli.Tests;

/// <summary>The motion after a run: on the firmware's core nothing moves that nobody wants.</summary>
public sealed class LostStepsTests : IDisposable
{
    private const int Complete = 17;

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NativeBoardFact]
    public async Task After_a_complete_run_a_machine_does_not_move_again_without_a_yes()
    {
        using var board = await NativeBoard.Start();
        using var run = BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' {Words(board)}");
        await run.Says("It does not move again without a yes");
        await board.LookOver(run);
        await run.Says("May the machine MOVE once more");
        Assert.Equal(Complete, (await board.Look()).State);
        var ran = await run.EndAfterTyping('n');
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Contains("the machine stays where it is", ran.Output);
        Assert.Equal(Complete, (await board.Look()).State); // to reference it would have left that
        Assert.DoesNotContain("Referenced", Journal());
    }

    [NativeBoardFact]
    public async Task On_a_yes_it_references_and_tells_the_steps_it_lost()
    {
        using var board = await NativeBoard.Start();
        using var run = BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' {Words(board)}");
        await board.LookOver(run);
        await run.Says("May the machine MOVE once more");
        var ran = await run.EndAfterTyping('y');
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Contains("Lost steps: X off by 0 steps", ran.Output);
        Assert.Contains("Referenced", Journal());
    }

    [NativeBoardFact]
    public async Task A_run_that_nobody_attends_moves_again_only_where_the_option_says_so()
    {
        using (var board = await NativeBoard.Start())
        {
            var ran = await BridgeProcess.RunInShell(_folder.Path, $"'{BridgeProcess.Program}' {Words(board)} --unattended");
            Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
            Assert.Contains("the machine does not move again", ran.Output);
            Assert.Equal(Complete, (await board.Look()).State);
        }

        using var other = await NativeBoard.Start();
        var measured = await BridgeProcess.RunInShell(_folder.Path, $"'{BridgeProcess.Program}' {Words(other)} --unattended --lost-steps measure --runs more");
        Assert.True(measured.ExitCode == 0, measured.Output + measured.Error);
        Assert.True(measured.Output.IndexOf("THE MACHINE MOVES ONCE MORE", StringComparison.Ordinal)
            < measured.Output.IndexOf("Execute: ", StringComparison.Ordinal), measured.Output);
        Assert.Contains("The machine references once more", measured.Output);
        Assert.Contains("Lost steps: X off by 0 steps", measured.Output);
    }

    [NativeBoardFact]
    public async Task At_each_change_of_layer_a_board_references_and_tells_the_steps_it_lost()
    {
        using var board = await NativeBoard.Start();
        var job = _folder.Write("layers", Convert.FromHexString("402201" + "412201" + "412201" + "000000"));
        var ran = await BridgeProcess.RunInShell(_folder.Path,
            $"'{BridgeProcess.Program}' run {job} --raw --machine {_folder.QuickTower(0.02)} --device {board.PortName} --unattended --lost-steps layers");
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.True(ran.Output.IndexOf("At 2 changes of layer, and after a complete run, THE MACHINE REFERENCES", StringComparison.Ordinal)
            < ran.Output.IndexOf("Execute: ", StringComparison.Ordinal), ran.Output);
        foreach (var when in new[] { "Before layer 1: lost", "Before layer 2: lost", "Lost" })
            Assert.Contains($"{when} steps: X off by 0 steps", ran.Output);
        Assert.Contains("4 of 4 records are done", ran.Output);
        Assert.Equal(3, Journal().Split("\"Referenced\"").Length - 1);
    }

    [NativeBoardFact]
    public async Task A_board_that_has_the_whole_rest_of_a_job_is_told_to_measure_no_layer_of_it()
    {
        using var board = await NativeBoard.Start();
        var job = _folder.Write("layers", Convert.FromHexString("402201" + "412201" + "412201" + "000000"));
        using var run = BridgeProcess.Start(_folder.Path,
            "run", job, "--raw", "--machine", _folder.QuickTower(1), "--device", board.PortName, "--unattended");
        await board.Until(look => look.Worked >= 1);
        run.Signal("KILL");
        await board.Until(look => look.State == (int)MachineState.Held);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        var ran = await BridgeProcess.Run(_folder.Path, "run", "--resume", folder, "--device", board.PortName, "--unattended", "--lost-steps", "layers");
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("The device has the rest of the job: lost steps are measured at no change of layer any more.", ran.Output);
        Assert.DoesNotContain("Before layer", ran.Output);
        Assert.Contains("Lost steps: X off by 0 steps", ran.Output);
    }

    [NativeBoardFact]
    public async Task A_run_that_is_gone_on_with_without_measuring_layers_ends_where_the_board_was_told_to_stop()
    {
        using var board = await NativeBoard.Start();
        var job = _folder.Write("layers", Convert.FromHexString("602211" + "412201" + "000000"));
        using var run = BridgeProcess.Start(_folder.Path,
            "run", job, "--raw", "--machine", _folder.QuickTower(2), "--device", board.PortName, "--unattended", "--lost-steps", "layers");
        await board.Until(look => look.Worked >= 1);
        run.Signal("KILL");
        await board.Until(look => look.State == (int)MachineState.Held);
        string[] resume = ["run", "--resume", Assert.Single(Directory.GetDirectories(_folder.In("runs"))), "--device", board.PortName, "--unattended"];
        var ran = await BridgeProcess.Run(_folder.Path, resume);
        Assert.True(ran.ExitCode == 3, ran.Output + ran.Error);
        Assert.True(ran.Output.IndexOf("stop before layer 1, where the machine was to reference. Without --lost-steps layers it does not: THIS RUN ENDS THERE",
            StringComparison.Ordinal) is > 0 and var said && said < ran.Output.IndexOf("Unholding: ", StringComparison.Ordinal), ran.Output);
        Assert.Contains("LayerDone: ", ran.Output);
        Assert.Contains("Go on with this run by bridge run --resume and its folder.", ran.Output);
        Assert.Equal(Complete, (await board.Look()).State); // to reference it would have left that
        var rest = await BridgeProcess.Run(_folder.Path, resume);
        Assert.True(rest.ExitCode == 0, rest.Output + rest.Error);
        Assert.Contains("The device has to find its zero again", rest.Output);
        Assert.Contains("3 of 3 records are done", rest.Output);
    }

    [Fact]
    public async Task On_the_mock_steps_that_its_motor_skips_are_told_before_the_next_layer()
    {
        var job = _folder.Write("layers", Convert.FromHexString("402201" + "412201" + "412201" + "000000"));
        var ran = await InProcess.Run("run", job, "--raw", "--machine", _folder.Gantry, "--fast", "--lost-steps", "layers", "--faults", "skip=x:2:4",
            "--runs", _folder.In("runs"));
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Matches("Before layer 1: lost steps: X off by -?4 steps", ran.Output);
        Assert.Contains("Before layer 2: lost steps: X off by 0 steps", ran.Output);
        Assert.DoesNotContain("THE MACHINE", ran.Output); // the mock moves nothing
        var run = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        Assert.Equal(0, (await InProcess.Run("verify", run)).ExitCode);
        Assert.Equal(0, (await InProcess.Run("report", run)).ExitCode);
        var page = File.ReadAllText($"{run}.html");
        Assert.Contains("before layer 1, in ", page);
        Assert.Contains("only at 2 changes of layer", page);
        Assert.Contains("after the run, in ", page);
        Assert.Matches("Axis X: last -?4 steps lost", (await InProcess.Run("health", "--runs", _folder.In("runs"), "--machine", _folder.Gantry)).Output);
    }

    [Fact]
    public async Task A_run_whose_host_died_between_two_layers_goes_on_layer_by_layer()
    {
        var job = _folder.Write("layers", Convert.FromHexString("402201" + "412201" + "412201" + "000000"));
        await InProcess.Run("run", job, "--raw", "--machine", _folder.Gantry, "--fast", "--lost-steps", "layers", "--runs", _folder.In("runs"));
        var run = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        var journal = Path.Combine(run, "journal.jsonl");
        File.WriteAllLines(journal, File.ReadAllLines(journal).TakeWhile(line => !line.Contains("\"Restart\"", StringComparison.Ordinal)));
        var ran = await InProcess.Run("run", "--resume", run, "--fast", "--lost-steps", "layers");
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("1 of 4 records and 0 cells of the next are known to be done", ran.Output);
        Assert.DoesNotContain("Before layer 1", ran.Output); // the mock has only just found its zero
        Assert.Contains("Before layer 2: lost steps: X off by 0 steps", ran.Output);
        Assert.Contains("4 of 4 records are done", ran.Output);
        Assert.Equal(0, (await InProcess.Run("verify", run)).ExitCode);
    }

    [Fact]
    public async Task Where_something_stands_in_the_heads_way_down_the_layers_from_there_on_are_not_measured()
    {
        var job = _folder.Write("layers", Convert.FromHexString("400003" + "412201" + "000000"));
        var ran = await InProcess.Run("run", job, "--raw", "--machine", _folder.Gantry, "--fast", "--lost-steps", "layers", "--runs", _folder.In("runs"));
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("From layer 1 on lost steps are not measured: the head would come down on what was built at (0, 0) on layer 0.", ran.Output);
        Assert.DoesNotContain("Before layer 1", ran.Output);
        (await InProcess.Run("run", job, "--raw", "--machine", _folder.Gantry, "--lost-steps", "always")).AssertMisused("measure, layers or skip");
    }

    [Fact]
    public async Task Time_that_is_over_and_a_request_to_stop_are_no_yes()
    {
        using var output = new StringWriter();
        var time = new VirtualTime();
        using var operating = new OperatorInput(new Report(new OutputWriter(output), output), time);
        var asked = operating.IsYesAsync("Move?", TimeSpan.FromSeconds(30));
        time.AdvanceTo(TimeSpan.FromSeconds(29.9));
        Assert.False(asked.IsCompleted);
        time.AdvanceTo(TimeSpan.FromSeconds(30));
        Assert.False(await asked);
        asked = operating.IsYesAsync("Move?", TimeSpan.FromSeconds(30));
        operating.Request(MachineCommand.Stop);
        Assert.False(await asked);
    }

    [Fact]
    public async Task Abort_while_a_question_waits_is_no_yes_and_sends_STOP_at_once()
    {
        using var output = new StringWriter();
        var machine = MachineFile.Read(_folder.Plotter);
        using var line = new StopListener();
        using var journal = new FileJournal(_folder.In("journal"));
        var job = ProvedJob.Of(JobFile.Read(await _folder.KiteJob()), machine);
        var run = new RunController(job, new RunSettings { RunId = 1, Token = 1, Device = "mock" }, journal, Substitute.For<IRunWatcher>());
        run.StopOn(line); // as a run leaves it at its end
        using var operating = new OperatorInput(new Report(new OutputWriter(output), output), new VirtualTime());
        operating.Operate(run);
        var asked = operating.IsYesAsync("Move?", TimeSpan.FromSeconds(30));
        operating.Request(MachineCommand.Abort);
        Assert.False(await asked);
        Assert.Equal(StopOctets.Burst.ToArray(), line.Heard);
    }

    [Fact]
    public async Task What_was_found_of_a_zero_is_kept_on_yes_and_jobs_from_before_are_refused()
    {
        var machine = _folder.Write("mine.toml", File.ReadAllText(_folder.Plotter));
        var job = await _folder.KiteJob();
        string[] repeat = ["calibrate", "repeat", "--machine", machine, "--axis", "x", "--readings", "0", "0.01", "-0.01", "0.02", "0"];
        Assert.Contains("The file stays as it is.", (await InProcess.Run(repeat)).Output);
        Assert.Null(MachineFile.Read(machine).X.Repeat);
        var ran = await InProcess.Run([.. repeat, "--yes"]);
        Assert.True(ran.ExitCode == 0, ran.Output + ran.Error);
        Assert.Contains("have to be planned again", ran.Output);
        var kept = MachineFile.Read(machine).X.Repeat!;
        Assert.Equal((5, 0.004, 0.0114018), (kept.Readings, kept.MeanMm, kept.DeviationMm));
        var before = await InProcess.Run("run", job, "--machine", machine, "--fast", "--runs", _folder.In("runs"));
        before.AssertRefused("a job planned with machine file");
        (await InProcess.Run("calibrate", "repeat", "--axis", "x", "--readings", "1", "2")).AssertMisused("--machine, --axis: found one of them");
    }

    private string Words(NativeBoard board) =>
        $"run {_folder.Write("image", Convert.FromHexString("400003" + "000000"))} --raw --machine {_folder.QuickBoard(0.02)} --device {board.PortName}";

    /// <summary>A line of which only what overtakes is heard.</summary>
    private sealed class StopListener : ILine
    {
        public List<byte> Heard { get; } = [];

        public bool IsOpen => true;

        public string? ClosedBecause => null;

        public void Write(ReadOnlySpan<byte> octets)
        {
        }

        public void Overtake(ReadOnlySpan<byte> octets) => Heard.AddRange(octets);

        public int Read(Span<byte> octets) => 0;

        public ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation) => ValueTask.CompletedTask;

        public void Dispose()
        {
        }
    }

    private string Journal() => File.ReadAllText(Path.Combine(Assert.Single(Directory.GetDirectories(_folder.In("runs"))), "journal.jsonl"));
}

namespace Bridge.Cli.Tests;

/// <summary>A machine's first day, at a terminal, on the firmware's core.</summary>
public sealed class SetupTests : IDisposable
{
    private const int Aborted = 9;

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NativeBoardFact]
    public async Task A_first_time_user_is_led_from_contacts_to_measures_and_may_go_on_later()
    {
        using var board = await NativeBoard.Start();
        using (var setup = Start(board))
        {
            await board.LookOver(setup);
            await Contacts(setup, board);
            await setup.Says("Directions, slowly");
            await Hold(setup, until: "All axes have found their endstops.");
            await setup.Says("without a scrape or a stall?");
            setup.Type("y\r");
            await setup.Says("Is that good enough");
            Assert.Contains("X: 6 readings: mean 0 mm, standard deviation 0 mm", setup.Output);
            setup.Type('\u0003'); // called away
            await setup.Says("Asked the machine to stop;");
            Assert.Equal(3, (await setup.End()).ExitCode);
        }

        using var later = Start(board);
        await later.Says("looked over today");
        await NativeBoard.Answer(later, NativeBoard.ShortList);
        await later.Says("Directions, slowly, while you hold a key: done on");
        await later.Says("Is that good enough");
        later.Type("y\r");
        await later.Says("Keep that in the machine file");
        later.Type("y\r");
        await later.Says("smallest division");
        await Task.Delay(5000); // a person looks for the ruler
        later.Type("0.1\r");
        await later.Says("X is at its first cell.");
        later.Type("\r");
        await later.Says("How far did it go");
        later.Type("2.4 2.4\r");
        await later.Says("Change ");
        Assert.Contains("axes.x.steps_per_mm: 80 in the file, 100 found", later.Output);
        later.Type("yes\r");
        await later.Says("as it was it is");
        await later.Says("Y is at its first cell.");
        later.Type("\r");
        await later.Says("Y was told to go");
        later.Type("\r");
        await later.Says("smallest division", times: 2);
        later.Type("\r");
        foreach (var axis in "XY")
        {
            await later.Says($"{axis} came to cell 2 from below.");
            later.Type("\r");
            await later.Says($"{axis} came to cell 2 from above.");
            later.Type("\r");
        }

        var ran = await later.End();
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Contains("Set up.", ran.Output);
        Assert.Contains("steps_per_mm = 100.0\n", File.ReadAllText(_folder.In("quick.toml")));
        Assert.Equal(3, File.ReadAllText(_folder.In("quick.toml")).Split("repeat_readings = 6\n").Length); // X and Y
    }

    [NativeBoardFact]
    public async Task A_search_ends_with_the_motors_off_once_nobody_holds_the_key()
    {
        using var board = await NativeBoard.Start();
        await board.Do("endstop 0 1"); // it never closes: an axis that goes the wrong way looks the same
        using var setup = Start(board, "--again directions");
        await board.LookOver(setup);
        await setup.Says("let the key go");
        for (var time = 0; time < 20; time++)
        {
            setup.Type(" ");
            await Task.Delay(30);
        }

        var ran = await setup.End();
        Assert.True(ran.ExitCode == 4, ran.Output);
        Assert.Contains("Left at: Directions", ran.Output);
        Assert.Equal(Aborted, (await board.Look()).State);
        var there = await board.Place();
        await Task.Delay(300);
        Assert.Equal(there, await board.Place());
    }

    [LinuxFact]
    public async Task It_can_be_rehearsed_on_the_mock_device_and_leaves_nothing_behind()
    {
        using var setup = BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' setup --machine {_folder.Quick(0.05)}");
        await setup.Says("has no endstops that a hand");
        await Hold(setup, until: "All axes have found their endstops.");
        await setup.Says("without a scrape or a stall?");
        setup.Type("n\r");
        var ran = await setup.End();
        Assert.True(ran.ExitCode == 5, ran.Output);
        Assert.Contains("Left at: Directions", ran.Output);
        Assert.Equal(["quick.toml"], _folder.Names);
    }

    [Fact]
    public async Task Without_a_terminal_nothing_is_set_up()
    {
        var ran = await InProcess.Run("setup", "--machine", _folder.Plotter);
        ran.AssertRefused("nobody at a terminal");
    }

    private static async Task Contacts(BridgeProcess setup, NativeBoard board)
    {
        await setup.Says("Press the endstop of X");
        await board.Do("endstop 1 2");
        await setup.Says("Not X alone, but: EndstopY");
        await board.Do("endstop 1 0");
        await board.Do("endstop 0 2");
        await setup.Says("Seen: X.");
        await board.Do("endstop 0 0");
        await setup.Says("Press the endstop of Y");
        await board.Do("endstop 1 2");
        await setup.Says("Seen: Y.");
        await board.Do("endstop 1 0");
    }

    private static async Task Hold(BridgeProcess setup, string until)
    {
        var isSaid = setup.Says(until);
        while (!isSaid.IsCompleted)
        {
            setup.Type(" ");
            await Task.WhenAny(isSaid, Task.Delay(30));
        }

        await isSaid;
        setup.Type("\r"); // what is left of the held key is no answer
    }

    private BridgeProcess Start(NativeBoard board, string more = "")
    {
        var machine = File.Exists(_folder.In("quick.toml")) ? _folder.In("quick.toml") : _folder.QuickBoard(0.05);
        return BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' setup {more} --machine {machine} --device {board.PortName}");
    }
}

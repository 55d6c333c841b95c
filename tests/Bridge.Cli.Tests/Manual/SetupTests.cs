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
        await later.Says("This machine has no pen");
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

        await later.Says("Enter draws.");
        later.Type("\r");
        await later.Says("Is it there whole");
        Assert.Equal(4 + 4, (await board.Look()).Worked);
        later.Type("y\r");
        await later.Says("This machine has head a alone");
        await later.Says("smallest division", times: 3);
        later.Type("0.1\r");
        await later.Says("to the far mark, in mm?");
        later.Type("4.24\r");
        await later.Says("to the far end of the other, in mm?");
        later.Type("4.24\r");
        await later.Says("Is that good enough", times: 2);
        Assert.Contains("That is a right angle as far as this can tell.", later.Output);
        later.Type("y\r");
        var ran = await later.End();
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Contains("Set up.", ran.Output);
        Assert.Contains("steps_per_mm = 100.0\n", File.ReadAllText(_folder.In("quick.toml")));
        Assert.Equal(3, File.ReadAllText(_folder.In("quick.toml")).Split("repeat_readings = 6\n").Length); // X and Y
    }

    [NativeBoardFact]
    public async Task Two_pens_are_adjusted_drawn_with_and_brought_into_line()
    {
        using var board = await NativeBoard.Start();
        using (var pens = Start(board, "--again pens", TwoPens()))
        {
            await board.LookOver(pens);
            await Adjust(pens, "a", isRight: false); // a second time, since it did not touch
            await Adjust(pens, "a");
            await Adjust(pens, "b");
            await pens.Says("goes on with: Contacts, motors off.");
            var adjusted = await pens.End();
            Assert.True(adjusted.ExitCode == 0, adjusted.Output);
        }

        using (var pattern = Start(board, "--again pattern", TwoPens()))
        {
            await pattern.Says("looked over today");
            await NativeBoard.Answer(pattern, NativeBoard.ShortList);
            await pattern.Says("Enter draws.");
            pattern.Type("\r");
            await pattern.Says("of which each head made a half?");
            pattern.Type("y\r");
            Assert.Equal(0, (await pattern.End()).ExitCode);
        }

        using var offset = Start(board, "--again offset", TwoPens());
        await offset.Says("looked over today");
        await NativeBoard.Answer(offset, NativeBoard.ShortList);
        await offset.Says("smallest division");
        offset.Type("0.1\r");
        await offset.Says("Look at the line along Y at x = 1.");
        offset.Type("0.4 0.4\r");
        await offset.Says("Look at the line along X at y = 2.");
        offset.Type("-0.2\r");
        await offset.Says("Change ");
        offset.Type("yes\r");
        var ran = await offset.End();
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Matches(@"offset_mm = \[-0\.60*, -0\.20*\]", File.ReadAllText(_folder.In("quick.toml")));

        async Task Adjust(BridgeProcess setup, string pen, bool isRight = true)
        {
            var times = setup.Output.Split($"Pen {pen} is up.").Length;
            await setup.Says($"Pen {pen} is over the middle.", times);
            setup.Type("\r");
            await setup.Says($"Pen {pen} is down,", times);
            await board.UntilHeads((pen == "a", pen == "b")); // it is on its way
            for (var look = 0; look < 15; look++, await Task.Delay(100))
                Assert.Equal((pen == "a", pen == "b"), await board.Heads());
            setup.Type(" ");
            await setup.Says($"Pen {pen} is up.", times);
            Assert.Equal((false, false), await board.Heads());
            await setup.Says($"Does pen {pen} touch the paper", times);
            setup.Type(isRight ? "y\r" : "n\r");
        }
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

    private string TwoPens()
    {
        const string Pen = "kind = \"pen\"\nlower_seconds = 0.1\nlift_seconds = 0.1\n";
        if (!File.Exists(_folder.In("quick.toml")))
            _folder.Write("quick.toml", File.ReadAllText(_folder.QuickBoard(0.05)).Replace("kind = \"dot\"\nseconds_per_cell = 0.05\n",
                $"{Pen}[heads.b]\n{Pen}offset_mm = [-1, 0]\n", StringComparison.Ordinal));
        return _folder.In("quick.toml");
    }

    private BridgeProcess Start(NativeBoard board, string more = "", string? machine = null)
    {
        machine ??= File.Exists(_folder.In("quick.toml")) ? _folder.In("quick.toml") : _folder.QuickBoard(0.05);
        return BridgeProcess.StartAtTerminal(_folder.Path, $"exec '{BridgeProcess.Program}' setup {more} --machine {machine} --device {board.PortName}");
    }
}

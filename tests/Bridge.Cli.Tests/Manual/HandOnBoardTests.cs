namespace Bridge.Cli.Tests;

/// <summary>The real process at a terminal, by hand on the firmware's core.</summary>
public sealed class HandOnBoardTests : IDisposable
{
    private const string Right = "\u001b[C";
    private const int StepsOfACell = 80;
    private const int Stopped = 2;
    private const int Aborted = 9;

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NativeBoardFact]
    public async Task The_keys_move_the_machine_while_they_are_held_and_by_cells()
    {
        using var board = await NativeBoard.Start();
        using var move = Start(board, "move");
        await board.LookOver(move);
        await move.Says("Moves while a key");
        for (var time = 0; time < 10; time++)
        {
            move.Type(Right);
            await Task.Delay(30);
        }

        await Task.Delay(400);
        var there = await board.Place();
        Assert.True(there.X > 4, $"{there}");
        Assert.Equal(0, there.Y);
        move.Type('\t');
        await move.Says("A cell at each press. At cell (0, 0)");
        move.Type(Right);
        await move.Says("At cell (1, 0)");
        move.Type(Right);
        await move.Says("At cell (2, 0)");
        Assert.Equal(2 * StepsOfACell, (await board.Place()).X);
        move.Type('\r');
        var ran = await move.End();
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Equal(Stopped, (await board.Look()).State);
    }

    [NativeBoardFact]
    public async Task A_key_that_repeats_while_a_cell_is_gone_to_moves_nothing_after_that()
    {
        using var board = await NativeBoard.Start();
        using var move = Start(board, "move");
        await board.LookOver(move);
        await move.Says("Moves while a key");
        move.Type('\t');
        await move.Says("A cell at each press. At cell (0, 0)");
        move.Type(string.Concat(Enumerable.Repeat(Right, 40)));
        await move.Says("At cell (1, 0)");
        await Task.Delay(1000);
        Assert.Equal(StepsOfACell, (await board.Place()).X);
        move.Type('\r');
        Assert.Equal(0, (await move.End()).ExitCode);
    }

    [NativeBoardFact]
    public async Task An_enter_that_was_pressed_twice_leads_to_one_place()
    {
        using var board = await NativeBoard.Start();
        using var move = Start(board, "move --to 1,0 2,0 3,0");
        await board.LookOver(move);
        await move.Says("At cell (1, 0), layer 0. Enter goes on");
        move.Type("\r\r");
        await move.Says("At cell (2, 0), layer 0. Enter goes on");
        await Task.Delay(1000);
        Assert.Equal(2 * StepsOfACell, (await board.Place()).X);
        move.Type('\r');
        var ran = await move.End();
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.Contains("At cell (3, 0)", ran.Output);
    }

    [NativeBoardFact]
    public async Task Control_c_stops_a_reference_and_the_machine_is_at_rest()
    {
        using var board = await NativeBoard.Start();
        using var reference = Start(board, "reference --times 100");
        await board.LookOver(reference);
        await reference.Says("Referenced, 1 of 100");
        reference.Type('\u0003');
        var ran = await reference.End();
        Assert.True(ran.ExitCode == 3, ran.Output);
        Assert.Contains("Asked the machine to stop", ran.Output);
        Assert.Equal(Stopped, (await board.Look()).State);
    }

    [NativeBoardFact]
    public async Task The_inputs_change_as_hands_press_them()
    {
        using var board = await NativeBoard.Start();
        using var inputs = Start(board, "inputs");
        await inputs.Says("Ctrl-C ends.");
        await board.Do("e-stop open");
        await inputs.Says("e-stop: OPEN");
        await board.Do("e-stop closed");
        await inputs.Says("e-stop: closed");
        await board.Do("endstop 1 2");
        await inputs.Says("endstop Y: reached");
        await board.Do("endstop 0 2");
        await inputs.Says("All endstops read as reached at once");
        inputs.Type('\u0003');
        Assert.Equal(0, (await inputs.End()).ExitCode);
    }

    [NativeBoardFact]
    public async Task A_board_is_not_moved_before_each_item_of_the_checklist_is_answered()
    {
        using var board = await NativeBoard.Start();
        var before = await board.Look();
        using var reference = Start(board, "reference");
        await reference.Says("Who operates it?");
        reference.Type("Ada\r");
        await reference.Says("let every motor go");
        reference.Type("maybe\ry\r");
        await reference.Says("Type yes or no");
        await reference.Says("mains side open?");
        reference.Type("n\r");
        var ran = await reference.End();
        Assert.True(ran.ExitCode == 1, ran.Output);
        Assert.Contains("Refused: checklist, mains: found no; allowed: yes.", ran.Output);
        Assert.Equal(before, await board.Look());
        Assert.False(Directory.Exists(_folder.In("runs")));
    }

    [NativeBoardFact]
    public async Task What_was_typed_before_a_question_was_seen_is_no_answer_to_it()
    {
        using var board = await NativeBoard.Start();
        using var reference = Start(board, "reference");
        await reference.Says("Who operates it?");
        reference.Type("Ada\r" + string.Concat(Enumerable.Repeat("y\r", NativeBoard.WholeList)));
        await reference.Says($"1 of {NativeBoard.WholeList}: ");
        await Task.Delay(300);
        reference.Type("n\r");
        var ran = await reference.End();
        Assert.Contains("Refused: checklist, e-stop: found no; allowed: yes.", ran.Output);
        Assert.Equal(1, ran.ExitCode);
    }

    [NativeBoardFact]
    public async Task A_run_is_asked_the_same_and_its_folder_keeps_who_answered()
    {
        using var board = await NativeBoard.Start();
        using var run = Start(board, $"run {_folder.Write("image", Convert.FromHexString("400003" + "000000"))} --raw");
        await board.LookOver(run);
        await run.Says("May the machine MOVE once more");
        var ran = await run.EndAfterTyping('n');
        Assert.True(ran.ExitCode == 0, ran.Output);
        var folder = Assert.Single(Directory.GetDirectories(_folder.In("runs")));
        Assert.Contains("Complete", File.ReadAllText(Path.Combine(folder, "summary.json")));
        var record = File.ReadAllText(Path.Combine(folder, "checklist.json"));
        Assert.Contains("\"operator\": \"Ada\"", record);
        Assert.Contains("\"isWhole\": true", record);
    }

    [NativeBoardFact]
    public async Task A_list_of_ones_own_is_asked_instead()
    {
        const string list = """
            format = 1
            [[item]]
            id = "lid"
            ask = "Is the lid closed?"
            why = "Nobody reaches in then."
            each_time = true
            """;
        using var board = await NativeBoard.Start();
        using var reference = Start(board, $"reference --checklist {_folder.Write("list.toml", list)}");
        await reference.Says("Who operates it?");
        reference.Type("Ada\r");
        await reference.Says("1 of 1: Is the lid closed?");
        reference.Type("no\r");
        Assert.Contains("Refused: checklist, lid: found no; allowed: yes.", (await reference.End()).Output);
        var before = await board.Look();
        using var wrong = Start(board, $"reference --checklist {_folder.Write("wrong.toml", list.Replace("why", "who"))}");
        Assert.Contains("item 1: who", (await wrong.End()).Output);
        Assert.Equal(before, await board.Look());
    }

    [NativeBoardFact]
    public async Task A_board_that_was_just_switched_on_has_its_e_stop_tried_first()
    {
        using var board = await NativeBoard.Start();
        using (var reference = Start(board, "reference"))
        {
            await board.LookOver(reference);
            Assert.Equal(0, (await reference.End()).ExitCode);
        }

        var record = File.ReadAllText(Path.Combine(Assert.Single(Directory.GetDirectories(_folder.In("runs"))), "checklist.json"));
        Assert.Contains("\"operator\": \"Ada\"", record);
        Assert.Contains("\"eStopTried\": ", record);
        Assert.Equal(7, record.Split("\"ask\": ").Length - 1);

        using var again = Start(board, "reference"); // the same day, and the board has not been switched off
        await again.Says("looked over today");
        await NativeBoard.Answer(again, NativeBoard.ShortList);
        var ran = await again.End();
        Assert.True(ran.ExitCode == 0, ran.Output);
        Assert.DoesNotContain("Press the e-stop now", ran.Output);
    }

    [NativeBoardFact]
    public async Task An_e_stop_that_is_never_seen_to_open_may_be_given_up_and_nothing_was_started()
    {
        using var board = await NativeBoard.Start();
        using var reference = Start(board, "reference");
        await NativeBoard.Answer(reference, NativeBoard.WholeList);
        await reference.Says("Press the e-stop now");
        reference.Type('\u0003');
        var ran = await reference.End();
        Assert.Contains("Given up. Nothing was started.", ran.Output);
        Assert.NotEqual(0, ran.ExitCode);
        Assert.Equal(Aborted, (await board.Look()).State);
    }

    private BridgeProcess Start(NativeBoard board, string words) => BridgeProcess.StartAtTerminal(
        _folder.Path, $"exec '{BridgeProcess.Program}' {words} --machine {_folder.QuickBoard(0.05)} --device {board.PortName}");
}

namespace Bridge.Cli.Tests;

/// <summary>The real process at a terminal, by hand on the firmware's core.</summary>
public sealed class HandOnBoardTests : IDisposable
{
    private const string Right = "\u001b[C";
    private const int StepsOfACell = 80;
    private const int Stopped = 2;

    private readonly WorkFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NativeBoardFact]
    public async Task The_keys_move_the_machine_while_they_are_held_and_by_cells()
    {
        using var board = await NativeBoard.Start();
        using var move = Start(board, "move");
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
    public async Task Control_c_stops_a_reference_and_the_machine_is_at_rest()
    {
        using var board = await NativeBoard.Start();
        using var reference = Start(board, "reference --times 100");
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

    private BridgeProcess Start(NativeBoard board, string words) => BridgeProcess.StartAtTerminal(
        _folder.Path, $"exec '{BridgeProcess.Program}' {words} --machine {_folder.QuickBoard(0.05)} --device {board.PortName}");
}

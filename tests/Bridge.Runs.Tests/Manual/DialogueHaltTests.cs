using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class DialogueHaltTests
{
    [Theory]
    [InlineData(MachineCommand.Clear)]
    [InlineData(MachineCommand.Reset)]
    public async Task A_command_that_was_lost_on_its_way_is_not_sent_again_after_STOP(MachineCommand command)
    {
        var time = new VirtualTime();
        using var device = new ScriptedDevice(time);
        using var line = new WatchedLine(device, time);
        var dialogue = new DeviceDialogue(line, time);
        Assert.NotNull(await dialogue.OpenAsync(7));
        device.State = command == MachineCommand.Clear ? MachineState.Aborted : MachineState.Stopped;
        device.IsDead = true; // it hears no frame, but STOP
        var began = line.Turns;
        line.EachTurn = turn =>
        {
            if (turn == began + 2)
                dialogue.Halt();
            if (turn == began + 4)
                device.IsDead = false;
        };
        Assert.Null(await dialogue.TellAsync(new Command(command)));
        Assert.Equal("It was told to stop at once.", dialogue.Trouble);
        Assert.Empty(device.Commands);
        Assert.Equal(MachineState.Aborted, device.State);
    }
}

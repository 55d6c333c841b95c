using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Runs.Tests;

public class DialogueHaltTests
{
    [Fact]
    public async Task A_Clear_that_was_lost_on_its_way_is_not_sent_again_after_STOP()
    {
        var time = new VirtualTime();
        using var device = new ScriptedDevice(time) { HeedsStop = false }; // it says nothing of STOP: it is Aborted
        using var line = new WatchedLine(device, time);
        var dialogue = new DeviceDialogue(line, time);
        Assert.NotNull(await dialogue.OpenAsync(7));
        device.IsDead = true; // it hears no frame
        var began = line.Turns;
        line.EachTurn = turn =>
        {
            if (turn == began + 2)
                dialogue.Halt();
            if (turn == began + 4)
                device.IsDead = false;
        };
        Assert.Null(await dialogue.TellAsync(new Command(MachineCommand.Clear)));
        Assert.Equal("It was told to stop at once.", dialogue.Trouble);
        Assert.Empty(device.Commands);
        Assert.Equal(MachineState.Aborted, device.State);
    }
}

using Bridge.Runs;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Bridge.Cli.Tests;

public class DeviceDialogueTests
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    [Fact]
    public async Task Time_passes_between_an_answer_and_the_next_question()
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(MachineFile.Read(WorkFolder.Example("machines", "cardboard-plotter.toml")), time, seed: 1);
        using var line = port.Open();
        var device = new DeviceDialogue(line, time);
        Assert.NotNull(await device.OpenAsync(0x1234));
        Assert.Equal(Answer.Accepted, await device.TellAsync(new Command(MachineCommand.Clear)));
        var before = time.Now;
        await Task.Run(() => device.PassAsync(Pause)).WaitAsync(TimeSpan.FromSeconds(30)); // as where the store is busy
        Assert.InRange(time.Now - before, Pause, 2 * Pause);
        Assert.Null(device.Trouble);
    }

    [Fact]
    public async Task A_host_that_was_away_for_longer_than_an_answer_may_take_does_not_find_its_device_silent()
    {
        var time = new VirtualTime();
        using var port = MockPort.Of(MachineFile.Read(WorkFolder.Example("machines", "cardboard-plotter.toml")), time, seed: 1);
        using var line = port.Open();
        var device = new DeviceDialogue(line, time);
        Assert.NotNull(await device.OpenAsync(0x1234));
        await line.WaitAsync(TimeSpan.FromMinutes(1), CancellationToken.None); // its computer sleeps
        Assert.Equal(Answer.Accepted, await device.TellAsync(new Command(MachineCommand.Clear)));
        Assert.Null(device.Trouble);
    }
}

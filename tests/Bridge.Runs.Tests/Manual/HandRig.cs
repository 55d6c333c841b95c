using Bridge.Jobs;
using Bridge.Mock;

namespace Bridge.Runs.Tests;

/// <summary>A mock device in virtual time under a person's hand.</summary>
internal sealed class HandRig : IDisposable
{
    public HandRig(Machine? machine = null, MockFaults? faults = null)
    {
        Port = MockPort.Of(machine ?? Examples.Plotter, Time, seed: 1, faults);
        Line = new WatchedLine(Port.Open(), Time);
        Device = new DeviceDialogue(Line, Time);
        Hand = new MachineHand(Device, machine ?? Examples.Plotter);
    }

    public VirtualTime Time { get; } = new();

    public MockPort Port { get; }

    public WatchedLine Line { get; }

    public DeviceDialogue Device { get; }

    public MachineHand Hand { get; }

    public Gantry Gantry => Port.ByHand(device => device.Gantry);

    public static async Task<HandRig> Connected(Machine? machine = null)
    {
        var rig = new HandRig(machine);
        Assert.NotNull(await rig.Hand.ConnectAsync(7));
        return rig;
    }

    public static async Task<HandRig> Referenced(Machine? machine = null)
    {
        var rig = await Connected(machine);
        Assert.True(await rig.Hand.ReferenceAsync(), rig.Hand.Trouble);
        return rig;
    }

    /// <summary>Does something once, when a time has come.</summary>
    public void At(TimeSpan time, Action act)
    {
        var isDone = false;
        Line.EachTurn += _ =>
        {
            if (isDone || Time.Now < time)
                return;
            isDone = true;
            act();
        };
    }

    public void After(double seconds, Action act) => At(Time.Now + TimeSpan.FromSeconds(seconds), act);

    public void Dispose()
    {
        Line.Dispose();
        Port.Dispose();
    }
}

using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Panel.Tests;

/// <summary>
/// A panel's desks on a device in virtual time, and no page. Whenever the program looks at the device's clock a test may ask something of it, so that it can
/// be asked at each moment there is.
/// </summary>
internal sealed class WatchedDesks : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60); // on a machine with much else to do

    private readonly string _folder = Directory.CreateTempSubdirectory("bridge-desks-").FullName;
    private readonly PanelSetting _setting;
    private readonly BeforeMotion _before;

    public WatchedDesks(string? port = null)
    {
        Machine = MachineFile.Parse(ServedPanel.QuickMachine, "machine.toml");
        Devices = new TestDevices(Machine, port) { Watch = () => Looked?.Invoke(), StaysOn = true };
        Board = new LiveBoard(TimeProvider.System);
        _setting = new PanelSetting
        {
            Machine = Machine,
            MachinePath = "machine.toml",
            MachineBytes = ServedPanel.QuickMachine,
            Devices = Devices,
            Runs = Path.Combine(_folder, "runs"),
            Time = TimeProvider.System,
        };
        _before = new BeforeMotion(Machine, port, _setting.Checklist, _setting.Runs, _setting.Time);
        Hand = new HandDesk(_setting, _before, Occupancy, Board);
        Runs = new RunDesk(_setting, _before, Occupancy, Board);
    }

    public Machine Machine { get; }

    public TestDevices Devices { get; }

    public LiveBoard Board { get; }

    public Occupancy Occupancy { get; } = new();

    public HandDesk Hand { get; }

    public RunDesk Runs { get; }

    /// <summary>Called at each look at the device's clock, by the thread that looks.</summary>
    public Action? Looked { get; set; }

    public MachineState State => Devices.Last!.ByHand(device => device.State);

    /// <summary>The hand of another program, which takes the same device.</summary>
    public HandDesk HandOfAnother() => new(_setting, _before, new Occupancy(), Board);

    /// <summary>What somebody answers who has looked the machine over.</summary>
    public string[] Answers => [.. _before.Asked().Items.Select(item => item.Id)];

    public static async Task Until(Func<bool> holds, Func<string> otherwise)
    {
        var start = TimeProvider.System.GetTimestamp();
        while (!holds())
        {
            Assert.True(TimeProvider.System.GetElapsedTime(start) < Patience, otherwise());
            await Task.Delay(TimeSpan.FromMilliseconds(1), TimeProvider.System);
        }
    }

    public Task UntilState(MachineState state, string when = "") => Until(() => State == state, () => $"It stays {State}, not {state} {when}.");

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}

using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Panel;
using Bridge.Wire;

namespace Panel.Bench;

/// <summary>Mock devices that live by the clock of a soak, one of them in the place of the machine at a port.</summary>
/// <param name="machine">The machine.</param>
/// <param name="time">The clock.</param>
/// <param name="passed">Called between two turns of a run, which waits for it.</param>
internal sealed class SoakDevices(Machine machine, SoakTime time, Func<Task> passed) : IDevices
{
    private MockPort? _last;
    private int _open;

    public string Port => "soak-port";

    /// <summary>How many times as fast as a real clock a run passes time, but for a machine that is held: a person is not as fast.</summary>
    public int Speed { get; set; } = 1;

    /// <summary>Whether a line is open, and its run moves the clock.</summary>
    public bool IsOpen => Volatile.Read(ref _open) > 0;

    public OpenDevice OpenMock(bool fast) => Open("mock", isMock: true);

    public Task<(OpenDevice? Device, string Trouble)> OpenPortAsync() => Task.FromResult<(OpenDevice?, string)>((Open(Port, isMock: false), ""));

    public void PressEStop() => _last!.ByHand(device => device.Gantry.PressEStop());

    public void ReleaseEStop() => _last!.ByHand(device => device.Gantry.ReleaseEStop());

    private OpenDevice Open(string name, bool isMock)
    {
        Interlocked.Increment(ref _open);
        var port = _last = MockPort.Of(machine, time.Clock, seed: 1);
        var line = new PacedLine(port.Open(), PassAsync);
        return new OpenDevice(line, time.Clock, name, isMock, null, () =>
        {
            line.Dispose();
            port.Dispose();
            Interlocked.Decrement(ref _open);
        });
    }

    // No farther than the event stream follows.
    private async Task PassAsync(Func<TimeSpan, ValueTask> waitAsync)
    {
        await waitAsync(await time.UntilDueAsync());
        time.Speed = _last!.ByHand(device => device.State == MachineState.Held) ? 1 : Speed;
        await time.PaceAsync();
        await passed();
    }

    // A line on which waiting moves the clock step by step.
    private sealed class PacedLine(ILine line, Func<Func<TimeSpan, ValueTask>, Task> pass) : ILine
    {
        public bool IsOpen => line.IsOpen;

        public string? ClosedBecause => line.ClosedBecause;

        public void Write(ReadOnlySpan<byte> octets) => line.Write(octets);

        public void Overtake(ReadOnlySpan<byte> octets) => line.Overtake(octets);

        public int Read(Span<byte> octets) => line.Read(octets);

        public async ValueTask WaitAsync(TimeSpan atMost, CancellationToken cancellation) =>
            await pass(left => line.WaitAsync(atMost < left ? atMost : left, cancellation));

        public void Dispose() => line.Dispose();
    }
}

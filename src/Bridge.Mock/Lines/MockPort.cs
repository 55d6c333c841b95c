using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>
/// Where lines to a mock device are opened. It joins the device, the line's two ways and a clock: a real one, or <see
/// cref="VirtualTime"/>, which waiting on the line moves from event to event. One line is open at a time; the device goes on
/// whether or not one is. Safe to use from several threads.
/// </summary>
public sealed class MockPort : IDisposable
{
    private readonly Lock _lock = new();
    private readonly MockDevice _device;
    private readonly TimeProvider _time;
    private readonly long _started;
    private readonly OneWay _toDevice;
    private readonly OneWay _toHost;
    private MockLine? _line;
    private TimeSpan _settledAt = TimeSpan.MinValue; // nothing is due at this time any more

    /// <summary>A port to a device that is switched on now.</summary>
    /// <param name="device">The device; it has not gone on before.</param>
    /// <param name="time">The clock: real, or virtual.</param>
    /// <param name="baud">Bits per second, ten of them for an octet.</param>
    /// <param name="faults">What goes wrong on the line; by default nothing.</param>
    /// <param name="seed">Decides which frames it goes wrong for.</param>
    public MockPort(MockDevice device, TimeProvider time, int baud, MockFaults? faults = null, int seed = 0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(baud, 1);
        faults ??= MockFaults.None;
        (_device, _time, _started) = (device, time, time.GetTimestamp());
        _toDevice = new OneWay(baud, Delay, faults.ToDevice, new Random(2 * seed));
        _toHost = new OneWay(baud, Delay, faults.ToHost, new Random(2 * seed + 1));
    }

    /// <summary>What an octet takes beside its bits, each way: 0.5 ms.</summary>
    public static TimeSpan Delay { get; } = TimeSpan.FromMilliseconds(0.5);

    private TimeSpan Now => _time.GetElapsedTime(_started);

    /// <summary>A port to a mock device as a machine file describes it, switched on now, at the file's baud rate.</summary>
    /// <param name="machine">The machine.</param>
    /// <param name="time">The clock: real, or virtual.</param>
    /// <param name="seed">Decides where the carriage stands and which frames go wrong.</param>
    /// <param name="faults">What goes wrong; by default nothing.</param>
    public static MockPort Of(Machine machine, TimeProvider time, int seed, MockFaults? faults = null) =>
        new(new MockDevice(new Gantry(machine, seed), faults), time, machine.Baud, faults, seed);

    /// <summary>Opens a line; one that is open is closed by it.</summary>
    public ILine Open()
    {
        lock (_lock)
        {
            AdvanceTo(Now);
            Close("opened anew");
            return _line = new MockLine(this, _time);
        }
    }

    /// <summary>Pulls the cable: the line closes, and what is on its way is lost.</summary>
    public void Cut()
    {
        lock (_lock)
            Close("the line was cut");
    }

    /// <summary>Does something by hand at the machine, now: press the e-stop, push the carriage, look.</summary>
    public T ByHand<T>(Func<MockDevice, T> act)
    {
        lock (_lock)
        {
            AdvanceTo(Now);
            var result = act(_device);
            _settledAt = TimeSpan.MinValue;
            AdvanceTo(Now);
            return result;
        }
    }

    /// <summary>Does something by hand at the machine, now.</summary>
    public void ByHand(Action<MockDevice> act) => ByHand(device =>
    {
        act(device);
        return true;
    });

    /// <summary>Lets virtual time pass with nobody at the line.</summary>
    public void LetPass(TimeSpan time)
    {
        if (_time is not VirtualTime clock)
            throw new InvalidOperationException("Real time passes by itself.");
        clock.AdvanceTo(clock.Now + time);
        lock (_lock)
            AdvanceTo(Now);
    }

    /// <summary>Closes the line that is open.</summary>
    public void Dispose()
    {
        lock (_lock)
            Close("the port was closed");
    }

    internal void Write(MockLine line, ReadOnlySpan<byte> octets)
    {
        lock (_lock)
        {
            AdvanceTo(Now);
            if (line == _line)
                _toDevice.Send(octets, Now);
        }
    }

    internal void Overtake(MockLine line, ReadOnlySpan<byte> octets)
    {
        lock (_lock)
        {
            AdvanceTo(Now);
            if (line != _line)
                return;
            _toDevice.DropWaiting(Now);
            _toDevice.Send(octets, Now);
        }
    }

    /// <summary>Brings all up to the present; gives when something happens next, since the port's start, or null.</summary>
    internal TimeSpan? Pump(MockLine line, out TimeSpan now)
    {
        lock (_lock)
        {
            now = Now;
            AdvanceTo(now);
            var next = NextEvent;
            return line == _line && _toHost.NextArrival is { } arrival && (next is null || arrival < next) ? arrival : next;
        }
    }

    internal void Close(MockLine line, string because)
    {
        lock (_lock)
            if (line == _line)
                Close(because);
    }

    private TimeSpan? NextEvent
    {
        get
        {
            var (device, octets) = (_device.NextEvent, _toDevice.NextArrival);
            return device is null || octets < device ? octets ?? device : device;
        }
    }

    private void AdvanceTo(TimeSpan now)
    {
        if (now == _settledAt)
            return;
        while (NextEvent is { } next && next <= now)
        {
            var at = next;
            if (_toDevice.Receive(at) is { } octets)
                _device.Receive(octets, at);
            else
                _device.AdvanceTo(at);
            Forward(at);
        }

        _device.AdvanceTo(now);
        Forward(now);
        while (_toHost.Receive(now) is { } octets)
            _line?.Arrive(octets);
        _settledAt = now;
    }

    private void Forward(TimeSpan at)
    {
        var sent = _device.Take();
        if (_line is not null && !sent.IsEmpty)
            _toHost.Send(sent, at);
        if (!_device.LineIsCut)
            return;
        _device.LineIsCut = false;
        Close("the line was cut");
    }

    private void Close(string because)
    {
        _line?.CloseBecause(because);
        _line = null;
        _toDevice.Clear();
        _toHost.Clear();
    }
}

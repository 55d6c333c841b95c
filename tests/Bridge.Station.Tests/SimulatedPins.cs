using System.Collections.Concurrent;
using System.Device.Gpio;

namespace Bridge.Station.Tests;

/// <summary>
/// Pins without any hardware. What is open reads high, by the pin's own resistor; a test closes and opens contacts, and reads what is written.
/// </summary>
public sealed class SimulatedPins : GpioDriver
{
    private readonly ConcurrentDictionary<int, PinValue> _levels = new();
    private readonly ConcurrentDictionary<int, int> _looks = new();
    private readonly ConcurrentDictionary<int, PinMode> _modes = new();
    private readonly ConcurrentDictionary<int, PinChangeEventHandler> _callbacks = new();

    /// <summary>How many pins there are.</summary>
    protected override int PinCount => 40;

    /// <summary>Whether changes are told, as a host does and an expander without its interrupt line does not.</summary>
    public bool TellsChanges { get; init; } = true;

    /// <summary>Thrown by each reading from now on.</summary>
    public Exception? Trouble { get; set; }

    /// <summary>A pin was written: which, its level before, its level now.</summary>
    public event Action<int, PinValue, PinValue>? Written;

    /// <summary>Whether a pin is open for use.</summary>
    public bool IsOpen(int pin) => _modes.ContainsKey(pin);

    /// <summary>The level of a pin.</summary>
    public PinValue this[int pin] => _levels.GetValueOrDefault(pin, PinValue.High);

    /// <summary>Closes a contact to ground, or opens it.</summary>
    public void Set(int pin, bool isClosed)
    {
        _levels[pin] = isClosed ? PinValue.Low : PinValue.High;
        if (_callbacks.TryGetValue(pin, out var told))
            told(this, new PinValueChangedEventArgs(isClosed ? PinEventTypes.Falling : PinEventTypes.Rising, pin));
    }

    /// <summary>Presses a button and lets it go, each so long that it is surely seen, however busy the computer is.</summary>
    public async Task PressAsync(int pin)
    {
        await SeenAsync(pin, isClosed: false);
        await SeenAsync(pin, isClosed: true);
        await SeenAsync(pin, isClosed: false);
    }

    private async Task SeenAsync(int pin, bool isClosed)
    {
        Set(pin, isClosed);
        await LookedAtAsync();
        await Task.Delay(50); // longer than a contact must stay to be believed
        await LookedAtAsync();

        async Task LookedAtAsync()
        {
            var since = TimeProvider.System.GetTimestamp();
            for (var before = Looks(); Looks() < before + 2;)
            {
                if (TimeProvider.System.GetElapsedTime(since) > TimeSpan.FromSeconds(30))
                    throw new TimeoutException($"Nobody looks at pin {pin}.");
                await Task.Delay(1);
            }
        }

        int Looks() => _looks.GetValueOrDefault(pin);
    }

    /// <inheritdoc/>
    protected override void OpenPin(int pinNumber) => _modes[pinNumber] = PinMode.Input;

    /// <inheritdoc/>
    protected override void ClosePin(int pinNumber) => _modes.TryRemove(pinNumber, out _);

    /// <inheritdoc/>
    protected override void SetPinMode(int pinNumber, PinMode mode) => _modes[pinNumber] = mode;

    /// <inheritdoc/>
    protected override PinMode GetPinMode(int pinNumber) => _modes[pinNumber];

    /// <inheritdoc/>
    protected override bool IsPinModeSupported(int pinNumber, PinMode mode) => true;

    /// <inheritdoc/>
    protected override PinValue Read(int pinNumber)
    {
        var level = Trouble is { } trouble ? throw trouble : this[pinNumber];
        _looks.AddOrUpdate(pinNumber, 1, (_, looks) => looks + 1);
        return level;
    }

    /// <inheritdoc/>
    protected override void Write(int pinNumber, PinValue value)
    {
        var before = this[pinNumber];
        _levels[pinNumber] = value;
        Written?.Invoke(pinNumber, before, value);
    }

    /// <inheritdoc/>
    protected override WaitForEventResult WaitForEvent(int pinNumber, PinEventTypes eventTypes, CancellationToken cancellationToken) =>
        throw new NotSupportedException("Nobody waits here.");

    /// <inheritdoc/>
    protected override void AddCallbackForPinValueChangedEvent(int pinNumber, PinEventTypes eventTypes, PinChangeEventHandler callback)
    {
        if (!TellsChanges)
            throw new NotSupportedException("Changes are not told.");
        _callbacks[pinNumber] = callback;
    }

    /// <inheritdoc/>
    protected override void RemoveCallbackForPinValueChangedEvent(int pinNumber, PinChangeEventHandler callback) => _callbacks.TryRemove(pinNumber, out _);
}

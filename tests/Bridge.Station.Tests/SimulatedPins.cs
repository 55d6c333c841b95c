using System.Collections.Concurrent;
using System.Device.Gpio;

namespace Bridge.Station.Tests;

/// <summary>
/// Pins without any hardware. What is open reads high, by the pin's own resistor; a test closes and opens contacts, and reads what is written.
/// </summary>
public sealed class SimulatedPins : GpioDriver
{
    private readonly ConcurrentDictionary<int, PinValue> _levels = new();
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
    protected override PinValue Read(int pinNumber) => Trouble is { } trouble ? throw trouble : this[pinNumber];

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

using System.Device.Gpio;
using System.Device.Gpio.Drivers;

namespace Bridge.Station;

/// <summary>The contacts on their pins, each between its pin and ground, with the pin's own resistor to its supply: closed reads low.</summary>
internal sealed class Contacts : IDisposable
{
    private readonly GpioController _pins;
    private readonly ContactPins _at;
    private readonly AutoResetEvent _changed = new(false);
    private readonly bool _tellsChanges;
    private int _hasOpened;

    /// <summary>Opens the pins.</summary>
    public Contacts(GpioController pins, ContactPins at)
    {
        (_pins, _at) = (pins, at);
        foreach (var pin in (int[])[at.EStop, at.Hold, at.Start])
            pins.OpenPin(pin, PinMode.InputPullUp);
        _tellsChanges = TryListen();
    }

    /// <summary>What they say now. An e-stop contact that opened since the last look counts as open, however shortly it did.</summary>
    public ContactReading Read()
    {
        try
        {
            var isClosed = IsClosed(_at.EStop) & Interlocked.Exchange(ref _hasOpened, 0) == 0;
            return new ContactReading(isClosed, IsClosed(_at.Hold), IsClosed(_at.Start));
        }
        catch (Exception trouble) when (IsOfPins(trouble))
        {
            Trouble = trouble.Message;
            return ContactReading.Lost;
        }
    }

    /// <summary>Why they could not be read; null while they can.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Waits until one changes, where the pins tell that, or a time is over.</summary>
    public void Wait(TimeSpan atMost) => _changed.WaitOne(atMost);

    /// <summary>Ends a wait.</summary>
    public void Wake() => _changed.Set();

    public void Dispose()
    {
        if (_tellsChanges)
            foreach (var pin in (int[])[_at.EStop, _at.Hold, _at.Start])
                _pins.UnregisterCallbackForPinValueChangedEvent(pin, Changed);
        _changed.Dispose();
    }

    /// <summary>Whether an error is one that pins have: they cannot be reached, or are not what they should be.</summary>
    internal static bool IsOfPins(Exception trouble) => trouble is IOException or InvalidOperationException or NotSupportedException
        or UnauthorizedAccessException or PlatformNotSupportedException or ArgumentException or GpiodException;

    private bool IsClosed(int pin) => _pins.Read(pin) == PinValue.Low;

    // An expander without an interrupt line tells nothing; there the looks alone must find a change.
    private bool TryListen()
    {
        try
        {
            foreach (var pin in (int[])[_at.EStop, _at.Hold, _at.Start])
                _pins.RegisterCallbackForPinValueChangedEvent(pin, PinEventTypes.Rising | PinEventTypes.Falling, Changed);
            return true;
        }
        catch (Exception trouble) when (IsOfPins(trouble))
        {
            return false;
        }
    }

    private void Changed(object sender, PinValueChangedEventArgs change)
    {
        if (change.PinNumber == _at.EStop && change.ChangeType == PinEventTypes.Rising)
            Volatile.Write(ref _hasOpened, 1);
        _changed.Set();
    }
}

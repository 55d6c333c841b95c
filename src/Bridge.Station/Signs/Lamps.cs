using System.Device.Gpio;

namespace Bridge.Station;

/// <summary>The lamps on their pins: high is lit.</summary>
internal sealed class Lamps
{
    private readonly GpioController _pins;
    private readonly IReadOnlyDictionary<LampColor, int> _at;
    private readonly Dictionary<LampColor, bool> _lit = [];

    /// <summary>Opens the pins, all dark.</summary>
    public Lamps(GpioController pins, IReadOnlyDictionary<LampColor, int> at)
    {
        (_pins, _at) = (pins, at);
        foreach (var (color, pin) in at)
        {
            pins.OpenPin(pin, PinMode.Output);
            pins.Write(pin, PinValue.Low);
            _lit[color] = false;
        }
    }

    /// <summary>Lights one and no other.</summary>
    public void Show(Lamp lamp, TimeSpan now)
    {
        foreach (var color in _at.Keys)
            Set(color, color == lamp.Color && lamp.IsLit(now));
    }

    /// <summary>All dark.</summary>
    public void Darken()
    {
        foreach (var color in _at.Keys)
            Set(color, false);
    }

    private void Set(LampColor color, bool isLit)
    {
        if (_lit[color] == isLit)
            return;
        _pins.Write(_at[color], isLit ? PinValue.High : PinValue.Low);
        _lit[color] = isLit;
    }
}

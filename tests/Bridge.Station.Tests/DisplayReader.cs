using System.Device.Gpio;

namespace Bridge.Station.Tests;

/// <summary>
/// What a display on simulated pins shows: takes the half octets that are there when E falls, as the HD44780 does (Hitachi's data sheet: 4-bit interface,
/// command 1 clears, 0x80 sets the place; lines of a display of 20 x 4 begin at places 0, 64, 20 and 84).
/// </summary>
internal sealed class DisplayReader
{
    private static readonly int[] Begins = [0, 64, 20, 84];

    private readonly char[] _places = Enumerable.Repeat(' ', 128).ToArray();
    private readonly Lock _door = new();
    private int? _high;
    private bool _isFourBits;
    private int _at;

    public DisplayReader(SimulatedPins pins, int registerSelect, int enable, int[] data) => pins.Written += (pin, before, now) =>
    {
        if (pin != enable || before != PinValue.High || now != PinValue.Low)
            return;
        lock (_door)
            Take(pins[registerSelect] == PinValue.High, data.Select((line, bit) => pins[line] == PinValue.High ? 1 << bit : 0).Sum());
    };

    /// <summary>All that it shows, line after line.</summary>
    public string Text
    {
        get
        {
            lock (_door)
                return string.Concat(Begins.Select(begin => new string(_places, begin, 20)));
        }
    }

    private void Take(bool isData, int half)
    {
        if (!_isFourBits)
        {
            _isFourBits = half == 2; // the first half of "4-bit interface"; before it the interface has eight
            return;
        }

        if (_high is not { } high)
        {
            _high = half;
            return;
        }

        _high = null;
        Take(isData, (byte)(high << 4 | half));
    }

    private void Take(bool isData, byte octet)
    {
        if (isData)
            _places[_at++ % _places.Length] = (char)octet;
        else if (octet >= 0x80)
            _at = octet & 0x7F;
        else if (octet == 1)
            Array.Fill(_places, ' ');
    }
}

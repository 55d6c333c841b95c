using System.Device.Gpio;
using System.Drawing;
using Iot.Device.CharacterLcd;

namespace Bridge.Station;

/// <summary>A character display on its pins. Only lines that change are written: each takes the display some milliseconds.</summary>
internal sealed class CharacterDisplay : IDisposable
{
    private readonly Hd44780 _display;
    private readonly string[] _shown;

    /// <summary>Opens the pins and clears it.</summary>
    public CharacterDisplay(GpioController pins, DisplayPins at)
    {
        _display = new Hd44780(new Size(at.Columns, at.Lines),
            LcdInterface.CreateGpio(at.RegisterSelect, at.Enable, [.. at.Data], controller: pins, shouldDispose: false));
        _shown = Enumerable.Repeat(new string(' ', at.Columns), at.Lines).ToArray();
        _display.Clear();
    }

    /// <summary>Shows lines, as many and as long as it has.</summary>
    public void Show(IReadOnlyList<string> lines)
    {
        for (var line = 0; line < _shown.Length; line++)
        {
            if (_shown[line] == lines[line])
                continue;
            _display.SetCursorPosition(0, line);
            _display.Write(lines[line]);
            _shown[line] = lines[line];
        }
    }

    public void Dispose() => _display.Dispose();
}

using System.Device.Gpio;
using System.Device.I2c;
using Iot.Device.Mcp23xxx;

namespace Bridge.Station;

/// <summary>The pins of this computer, or of an expander on its I2C bus.</summary>
public static class StationPins
{
    /// <summary>Opens them; no pin yet.</summary>
    public static GpioController Open(StationWiring wiring) => wiring.Expander is { } at
        ? new GpioController(new Mcp23017(I2cDevice.Create(new I2cConnectionSettings(at.Bus, at.Address))))
        : new GpioController();
}

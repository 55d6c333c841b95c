using System.Device.Gpio;
using Bridge.Jobs;
using Bridge.Station;

namespace Bridge.Cli;

/// <summary>The operator's station that a run is started and stopped at.</summary>
/// <param name="File">Its file.</param>
/// <param name="Pins">What gives its pins.</param>
internal sealed record StationChoice(string File, Func<StationWiring, GpioController> Pins)
{
    /// <summary>Opens it; from then on its e-stop contact counts.</summary>
    /// <exception cref="RefusedException">The file is none, the pins are not there, or the contact is open.</exception>
    public OperatorStation Open(Report report) => OperatorStation.Open(File, StationFile.Read(File), Pins, TimeProvider.System, report.Line);
}

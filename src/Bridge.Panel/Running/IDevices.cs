using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Panel;

/// <summary>Where the panel gets its devices from: the program that hosts it knows ports and the mock device.</summary>
public interface IDevices
{
    /// <summary>The real device's name, a port; null where there is none but the mock.</summary>
    string? Port { get; }

    /// <summary>Opens the mock device.</summary>
    /// <param name="fast">Whether its time passes at once.</param>
    OpenDevice OpenMock(bool fast);

    /// <summary>Opens the port. Where it cannot be, the words say why.</summary>
    Task<(OpenDevice? Device, string Trouble)> OpenPortAsync();
}

/// <summary>A device with an open line.</summary>
/// <param name="Line">The line.</param>
/// <param name="Time">The clock that the device lives by.</param>
/// <param name="Name">Its name for records.</param>
/// <param name="IsMock">Whether it is the mock device, which moves nothing.</param>
/// <param name="CountCellsNotAsTold">For the mock device: in how many cells its gantry differs from what it told.</param>
/// <param name="Close">Closes line and device.</param>
public sealed record OpenDevice(
    ILine Line, TimeProvider Time, string Name, bool IsMock, Func<WorkedCells, long>? CountCellsNotAsTold, Action Close) : IDisposable
{
    /// <inheritdoc/>
    public void Dispose() => Close();
}

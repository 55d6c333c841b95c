using System.IO.Ports;

namespace Bridge.Serial;

/// <summary>One try to open a port.</summary>
internal static class SerialDoor
{
    /// <summary>Takes the lock, opens the port and lets it settle; a refusal holds nothing.</summary>
    public static async Task<SerialOpening> OpenAsync(
        string portName, int baud, SerialLineOptions options, TimeProvider time, CancellationToken cancellation)
    {
        PortLock? portLock = null;
        SerialPort? port = null;
        try
        {
            portLock = PortLock.TryTake(portName);
            if (portLock is null)
                return new SerialOpening.Refused(
                    $"{portName} is in use by another run of Bridge.", "Let that run end, or choose another port.", MayPass: true);
            port = new SerialPort(portName, baud, Parity.None, 8, StopBits.One)
            {
                Handshake = Handshake.None,
                WriteTimeout = (int)options.WriteTimeout.TotalMilliseconds,
            };
            await Task.Run(port.Open, cancellation).ConfigureAwait(false);
            if (options.RaiseDtr)
                RaiseDtr(port);
            await Task.Delay(options.SettlePause, time, cancellation).ConfigureAwait(false);
            var line = new SerialLine(port, portLock, options, time);
            (port, portLock) = (null, null);
            return new SerialOpening.Opened(line);
        }
        catch (Exception trouble) when (OpeningTrouble.Refusal(portName, baud, trouble) is { } refusal)
        {
            return refusal;
        }
        finally
        {
            port?.Dispose();
            portLock?.Dispose();
        }
    }

    // A pseudo-terminal has no such output, and neither have some adapters.
    private static void RaiseDtr(SerialPort port)
    {
        try
        {
            port.DtrEnable = true;
        }
        catch (IOException)
        {
            // The line works without it, or its first message goes unanswered and says so.
        }
    }
}

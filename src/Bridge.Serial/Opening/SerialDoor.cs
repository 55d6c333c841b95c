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
        IPortOutput? output = null;
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
            output = await Task.Run(() => OpenOutput(port, options, time), cancellation).ConfigureAwait(false);
            output = options.Between?.Invoke(output) ?? output;
            if (options.RaiseDtr)
                RaiseDtr(port);
            await Task.Delay(options.SettlePause, time, cancellation).ConfigureAwait(false);
            var line = new SerialLine(port, output, portLock, options, time);
            (port, output, portLock) = (null, null, null);
            return new SerialOpening.Opened(line);
        }
        catch (Exception trouble) when (OpeningTrouble.Refusal(portName, baud, trouble) is { } refusal)
        {
            return refusal;
        }
        finally
        {
            output?.Dispose();
            port?.Dispose();
            portLock?.Dispose();
        }
    }

    // The file comes first: the library shuts the port to everybody else. Why a file cannot be opened, the library says better.
    private static IPortOutput OpenOutput(SerialPort port, SerialLineOptions options, TimeProvider time)
    {
        var file = options.WritesByStream ? null : FileOutput.TryOpen(port.PortName, time);
        try
        {
            port.Open();
            if (options.WritesByStream)
                return new StreamOutput(port.BaseStream);
            return file ?? throw new IOException("it has only just appeared");
        }
        catch
        {
            file?.Dispose();
            throw;
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

namespace Bridge.Serial;

/// <summary>What opening a port throws, in words.</summary>
internal static class OpeningTrouble
{
    // Error numbers of POSIX systems; Linux and macOS give these the same values (errno.h).
    private const int NotPermitted = 1;
    private const int NoSuchFile = 2;
    private const int InputOutput = 5;
    private const int NoSuchDevice = 6;
    private const int AccessDenied = 13;
    private const int Busy = 16;

    /// <summary>The refusal that stands for <paramref name="trouble"/>, or null if it is none that opening is expected to throw.</summary>
    public static SerialOpening.Refused? Refusal(string portName, int baud, Exception trouble) => trouble switch
    {
        // Off Windows whatever the system says comes as this exception, with the system's error inside.
        UnauthorizedAccessException { InnerException: IOException inner } => FromSystem(portName, inner),
        UnauthorizedAccessException => NotAllowed(portName),
        FileNotFoundException or DirectoryNotFoundException => NoSuchPort(portName),
        ArgumentOutOfRangeException => new(
            $"{portName} does not accept {baud} baud.", "Choose a baud rate that the adapter and the board both have.", MayPass: false),
        ArgumentException or NotSupportedException or InvalidOperationException => NoSerialPort(portName),
        IOException => Failed(portName, trouble),
        _ => null,
    };

    private static SerialOpening.Refused FromSystem(string portName, IOException inner) => inner.HResult switch
    {
        NoSuchFile => NoSuchPort(portName),
        NotPermitted or AccessDenied or Busy => NotAllowed(portName),
        InputOutput or NoSuchDevice => Failed(portName, inner),
        _ => NoSerialPort(portName),
    };

    private static SerialOpening.Refused NoSuchPort(string portName) =>
        new($"There is no port {portName}.", "Plug the device in and check the name.", MayPass: true);

    private static SerialOpening.Refused NotAllowed(string portName) =>
        new($"{portName} may not be opened: another program holds it, or this user has no right to it.",
            "Close the other program, or let the system's owner give this user the right to serial ports.", MayPass: true);

    private static SerialOpening.Refused NoSerialPort(string portName) =>
        new($"{portName} is no serial port.", "Give the name of a serial port.", MayPass: false);

    private static SerialOpening.Refused Failed(string portName, Exception trouble) =>
        new($"{portName} could not be opened: {trouble.Message.TrimEnd('.')}.",
            "Put that right, or plug the device out and in again.", MayPass: true);
}

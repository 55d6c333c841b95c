using System.CommandLine;
using Bridge.Serial;

namespace Bridge.Cli;

/// <summary>bridge ports: the serial ports that a device may be on.</summary>
internal static class PortsCommand
{
    public static Command Make(Report report)
    {
        var command = new ExampleCommand("ports", "List the serial ports that a board may be on, for bridge run --device.", "bridge ports");
        command.SetAction(_ => List(report, SerialPorts.List()));
        return command;
    }

    private static int List(Report report, IReadOnlyList<SerialPortFound> ports)
    {
        if (ports.Count == 0)
            report.Line("No serial port was found. Plug the board in; give it power.");
        var width = ports.Select(port => port.Name.Length).DefaultIfEmpty().Max();
        foreach (var port in ports)
            report.Line($"{port.Name.PadRight(width)}  {port.Known}".TrimEnd());
        return ExitCode.Done;
    }
}

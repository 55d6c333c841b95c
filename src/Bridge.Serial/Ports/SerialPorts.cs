using System.ComponentModel;
using System.IO.Ports;
using System.Security;

namespace Bridge.Serial;

/// <summary>Looks for serial ports.</summary>
public static class SerialPorts
{
    private const int MostPorts = 256;

    /// <summary>The ports that the system knows of, those it knows something about first; at most 256. Never throws: without an answer it is empty.
    /// Pseudo-terminals are not among them, and may be opened by name.</summary>
    /// <param name="devicesFolder">Where the system keeps links to ports that are named after their devices.</param>
    public static IReadOnlyList<SerialPortFound> List(string devicesFolder = "/dev/serial/by-id")
    {
        var devices = OrEmpty(() => DevicesByPort(devicesFolder));
        var names = OrEmpty(() => SerialPort.GetPortNames().Select(name => KeyValuePair.Create(name, "")));
        return devices.Concat(names)
            .DistinctBy(found => found.Key)
            .Take(MostPorts)
            .Select(found => new SerialPortFound(found.Key, found.Value))
            .OrderBy(found => found.Known.Length == 0)
            .ThenBy(found => found.Name, StringComparer.Ordinal)
            .ToList();
    }

    private static IEnumerable<KeyValuePair<string, string>> DevicesByPort(string folder) =>
        from link in new DirectoryInfo(folder).EnumerateFileSystemInfos().Take(MostPorts)
        let port = link.ResolveLinkTarget(returnFinalTarget: true)
        where port is { Exists: true }
        select KeyValuePair.Create(port.FullName, link.Name);

    private static List<KeyValuePair<string, string>> OrEmpty(Func<IEnumerable<KeyValuePair<string, string>>> look)
    {
        try
        {
            return look().ToList();
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or SecurityException
            or PlatformNotSupportedException or Win32Exception)
        {
            return [];
        }
    }
}

using System.Globalization;
using System.Net;

namespace Bridge.Panel;

/// <summary>Where the panel is asked for.</summary>
/// <param name="Ip">The address that it listens on.</param>
/// <param name="Port">The port.</param>
public sealed record PanelAddress(IPAddress Ip, int Port)
{
    /// <summary>Whether others than this computer may reach it.</summary>
    public bool IsOpen => !IPAddress.IsLoopback(Ip);

    /// <summary>Address and port as a browser writes them.</summary>
    public string Authority => string.Create(CultureInfo.InvariantCulture, $"{new IPEndPoint(Ip, Port)}");

    /// <summary>The address of the page.</summary>
    public Uri Uri => new($"http://{Authority}/");

    /// <summary>Whether a request's Host is this one's: the address itself, or on loopback also localhost.</summary>
    public bool IsHost(string? host) => string.Equals(host, Authority, StringComparison.OrdinalIgnoreCase)
        || (!IsOpen && string.Equals(host, $"localhost:{Port.ToString(CultureInfo.InvariantCulture)}", StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether a request's Origin is this one's own page.</summary>
    public bool IsOrigin(string origin) => origin.StartsWith("http://", StringComparison.OrdinalIgnoreCase) && IsHost(origin["http://".Length..]);
}

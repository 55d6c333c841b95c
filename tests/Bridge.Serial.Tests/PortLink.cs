namespace Bridge.Serial.Tests;

/// <summary>A name for a port that stays while the port behind it changes, as the system keeps one for a device that is plugged in again.</summary>
public sealed class PortLink : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("bridge-serial-test-");

    public string Folder => folder.FullName;

    public string Path => System.IO.Path.Combine(folder.FullName, "a-device");

    public void PointTo(string portName)
    {
        File.Delete(Path);
        File.CreateSymbolicLink(Path, portName);
    }

    public void Dispose() => folder.Delete(recursive: true);
}

using System.ComponentModel;
using System.Diagnostics;

namespace Planning.Bench;

/// <summary>A package with open data, installed by npm into a folder that is gone afterwards.</summary>
internal sealed class NpmPackage : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("bridge-bench-").FullName;
    private readonly string _name;

    /// <summary>Installs it; nothing of it is run.</summary>
    public NpmPackage(string name, string version)
    {
        _name = name;
        try
        {
            using var npm = Process.Start(new ProcessStartInfo("npm",
                ["install", "--prefix", _folder, "--ignore-scripts", "--no-audit", "--no-fund", "--silent", $"{name}@{version}"]))!;
            npm.WaitForExit();
            if (npm.ExitCode != 0)
                throw new InvalidOperationException($"npm could not install {name} {version}.");
        }
        catch (Win32Exception)
        {
            throw new InvalidOperationException("npm is not there: install Node.js with npm.");
        }
    }

    /// <summary>A file or folder of it.</summary>
    public string At(params string[] path) => Path.Combine([_folder, "node_modules", _name, .. path]);

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(_folder, recursive: true);
}

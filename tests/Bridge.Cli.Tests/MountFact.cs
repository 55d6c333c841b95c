using System.Diagnostics;

namespace Bridge.Cli.Tests;

/// <summary>A test that mounts a file system of its own; skipped, and it says so, where that may not be done.</summary>
public sealed class MountFactAttribute : FactAttribute
{
    private static readonly bool MayMount = OperatingSystem.IsLinux() && Try();

    public MountFactAttribute() => Skip = MayMount ? null : "A file system may not be mounted here (unshare, mount).";

    private static bool Try()
    {
        try
        {
            var mount = new ProcessStartInfo("unshare", ["-r", "-m", "sh", "-c", "mount -t tmpfs none /mnt"]) { RedirectStandardError = true };
            using var trial = Process.Start(mount);
            trial!.WaitForExit();
            return trial.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return false; // there is no such program
        }
    }
}

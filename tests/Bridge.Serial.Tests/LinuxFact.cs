namespace Bridge.Serial.Tests;

/// <summary>A test that needs devices that Linux has, such as pseudo-terminals; elsewhere it is skipped, and says so.</summary>
public sealed class LinuxFactAttribute : FactAttribute
{
    public LinuxFactAttribute()
    {
        if (!OperatingSystem.IsLinux())
            Skip = "It needs devices that Linux has.";
    }
}

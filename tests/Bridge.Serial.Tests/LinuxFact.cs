namespace Bridge.Serial.Tests;

/// <summary>A test that needs Linux's pseudo-terminals; elsewhere it is skipped, and says so.</summary>
public sealed class LinuxFactAttribute : FactAttribute
{
    public LinuxFactAttribute()
    {
        if (!OperatingSystem.IsLinux())
            Skip = "It needs Linux's pseudo-terminals.";
    }
}

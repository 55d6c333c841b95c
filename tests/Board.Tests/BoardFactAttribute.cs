namespace Board.Tests;

/// <summary>A test on the emulated board. Without emulator or compiler it is skipped and says so, but on a build server it fails.</summary>
public sealed class BoardFactAttribute : FactAttribute
{
    public BoardFactAttribute()
    {
        if (Environment.GetEnvironmentVariable("CI") != "true")
            Skip = Toolchain.Missing;
    }
}

/// <summary>The same for a test with data.</summary>
public sealed class BoardTheoryAttribute : TheoryAttribute
{
    public BoardTheoryAttribute()
    {
        if (Environment.GetEnvironmentVariable("CI") != "true")
            Skip = Toolchain.Missing;
    }
}

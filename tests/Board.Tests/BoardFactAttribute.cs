namespace Board.Tests;

/// <summary>A test on the emulated board. Where the emulator or the compiler is missing it is skipped and says so; a build server counts that as a failure.</summary>
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

namespace Bridge.Runs;

/// <summary>The version of the program, for its records.</summary>
public static class ProgramVersion
{
    /// <summary>As in 1.2.3.</summary>
    public static string Text { get; } = typeof(ProgramVersion).Assembly.GetName().Version?.ToString(3) ?? "";
}

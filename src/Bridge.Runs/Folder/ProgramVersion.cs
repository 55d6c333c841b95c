namespace Bridge.Runs;

/// <summary>The version of the program, for its records.</summary>
internal static class ProgramVersion
{
    public static string Text { get; } = typeof(ProgramVersion).Assembly.GetName().Version?.ToString(3) ?? "";
}

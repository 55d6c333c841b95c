namespace Bridge.Cli;

/// <summary>The short caution that every run prints; safety/CAUTIONS.md has it word for word.</summary>
internal static class Caution
{
    public static IReadOnlyList<string> Lines { get; } =
    [
        "Caution: a run can move a machine at any moment until it has ended. Keep hands, hair and clothing out of its reach.",
        "Stay with it, within reach of an emergency stop that cuts motor power by itself. This program is no safety device.",
        "Local electrical codes and licensed practice decide over anything that is said here.",
    ];
}

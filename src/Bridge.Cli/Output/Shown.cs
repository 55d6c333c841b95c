namespace Bridge.Cli;

/// <summary>Text from outside, made fit to be shown.</summary>
internal static class Shown
{
    /// <summary>The text on one line: a control character, which could steer a terminal or break the line, becomes \xHH.</summary>
    public static string Of(string text) => text.Any(char.IsControl)
        ? string.Concat(text.Select(letter => char.IsControl(letter) ? $"\\x{(int)letter:X2}" : $"{letter}"))
        : text;
}

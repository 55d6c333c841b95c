using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Bridge.Jobs;

/// <summary>A file of TOML that a person wrote: where it is none, the first line that is wrong is refused.</summary>
public static class TomlFile
{
    private const int LongestMessage = 120;

    /// <summary>Reads it.</summary>
    /// <param name="text">The file.</param>
    /// <param name="name">Its name, for the refusal.</param>
    /// <param name="action">What a person should do where it is none.</param>
    /// <exception cref="RefusedException">A line is no TOML, or names something for the second time.</exception>
    public static DocumentSyntax Parse(string text, string name, string action)
    {
        try
        {
            var file = SyntaxParser.Parse(text, validate: true);
            if (file.Diagnostics.FirstOrDefault(found => found.Kind == DiagnosticMessageKind.Error) is not { Span.Start.Line: var line })
                return file;
            var lines = text.Split('\n');
            throw new RefusedException($"{name}:{line + 1}", BrokenLines.Found(lines[Math.Min(line, lines.Length - 1)]),
                $"{BrokenLines.Allowed}; each name once", action);
        }
        catch (TomlException trouble) // thrown for what is nested too deep; the rest of its message speaks to programmers
        {
            throw new RefusedException(name, MachineFileText.Clean(trouble.Message.Split('.')[0], LongestMessage),
                "lists and tables in lists and tables, at most 64 deep", action);
        }
    }
}

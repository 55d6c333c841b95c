using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>An explanation as a Markdown page.</summary>
public static class MarkdownExplanation
{
    // What would be markup in a name that a person gave.
    private const string Markup = @"\`*_[]<>&";

    /// <summary>Writes it.</summary>
    public static void Write(JobExplanation job, TextWriter output)
    {
        output.WriteLine($"# {Escaped(job.Name)}");
        output.WriteLine();
        foreach (var line in ExplanationWords.Summary(job))
            output.WriteLine($"- {Escaped(line)}");
        foreach (var record in job.Records)
        {
            output.WriteLine($"{Environment.NewLine}## Record {record.Index}, byte {record.Index * record.Bytes.Length}: `{ExplanationWords.Hex(record)}`");
            output.WriteLine();
            foreach (var line in RecordField.Table(record.Fields))
                output.WriteLine($"    {line}");
            output.WriteLine($"{Environment.NewLine}**{Escaped(record.Meaning)}**");
            foreach (var line in ExplanationWords.Doing(record))
                output.WriteLine($"{Environment.NewLine}{Escaped(line)}");
        }

        foreach (var line in ExplanationWords.Closing(job))
            output.WriteLine($"{Environment.NewLine}{Escaped(line)}");
    }

    private static string Escaped(string text) =>
        string.Concat(text.Select(letter => char.IsControl(letter) ? " " : Markup.Contains(letter) ? $"\\{letter}" : $"{letter}"));
}

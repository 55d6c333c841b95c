using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>An explanation as plain text.</summary>
public static class TextExplanation
{
    /// <summary>Writes it.</summary>
    public static void Write(JobExplanation job, TextWriter output)
    {
        output.WriteLine(job.Name);
        foreach (var line in ExplanationWords.Summary(job))
            output.WriteLine($"  {line}");
        foreach (var record in job.Records)
        {
            output.WriteLine();
            output.WriteLine($"record {record.Index}, byte {record.Index * record.Bytes.Length}: {ExplanationWords.Hex(record)}");
            foreach (var line in RecordField.Table(record.Fields).Append(record.Meaning).Concat(ExplanationWords.Doing(record)))
                output.WriteLine($"  {line}");
        }

        foreach (var line in ExplanationWords.Closing(job))
            output.WriteLine($"{Environment.NewLine}{line}");
    }
}

using System.Net;

namespace Bridge.Teaching;

/// <summary>An explanation as one HTML page that needs nothing beside it: no script, no other file.</summary>
public static class HtmlExplanation
{
    private static readonly string Style = ReadStyle();

    /// <summary>Writes it.</summary>
    public static void Write(JobExplanation job, TextWriter output)
    {
        output.Write($"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8" />
            <meta name="viewport" content="width=device-width, initial-scale=1" />
            <title>{Of(job.Name)}, record by record</title>
            <style>
            {Style}</style>
            </head>
            <body>
            <header>
            <h1>{Of(job.Name)}</h1>

            """);
        foreach (var line in ExplanationWords.Summary(job))
            output.WriteLine($"<p>{Of(line)}</p>");
        output.WriteLine("</header>\n<main>");
        foreach (var record in job.Records)
            WriteRecord(record, output);
        output.WriteLine("</main>");
        foreach (var line in ExplanationWords.Closing(job))
            output.WriteLine($"<p class=\"closing\">{Of(line)}</p>");
        LayerDrawing.WriteAll(job.Worked, output);
        output.WriteLine("</body>\n</html>");
    }

    private static void WriteRecord(ExplainedRecord record, TextWriter output)
    {
        output.WriteLine($"<section id=\"record-{record.Index}\">");
        output.WriteLine($"<h2>{record.Index}<span>byte {record.Index * record.Bytes.Length}</span><code>{ExplanationWords.Hex(record)}</code></h2>");
        output.WriteLine("<div class=\"bits\">");
        foreach (var field in record.Fields)
            output.WriteLine($"<div><b>{field.Name}</b><code>{Bits(field.Bits)}</code><i>{field.Says}</i></div>");
        output.WriteLine("</div>");
        output.WriteLine($"<p class=\"meaning\">{Of(record.Meaning)}</p>");
        foreach (var line in ExplanationWords.Doing(record))
            output.WriteLine($"<p>{Of(line)}</p>");
        output.WriteLine("</section>");
    }

    // A set bit is marked by more than its colour: it is bold and boxed.
    private static string Bits(string bits) => string.Concat(bits.Select(bit => bit == '1' ? "<em>1</em>" : "<span>0</span>"));

    private static string Of(string text) => WebUtility.HtmlEncode(text);

    private static string ReadStyle()
    {
        using var style = new StreamReader(typeof(HtmlExplanation).Assembly.GetManifestResourceStream("explanation.css")!);
        return style.ReadToEnd();
    }
}

using Bridge.Jobs;
using Spectre.Console;

namespace Bridge.Cli;

/// <summary>Writes for a person at a terminal, or plain lines where the output goes to a file or another program. Trouble goes to the error output.</summary>
/// <param name="output">Where results go.</param>
/// <param name="error">Where trouble goes.</param>
/// <param name="isTerminal">Whether results go to a terminal.</param>
/// <param name="isInput">Whether keys can be read.</param>
internal sealed class Report(OutputWriter output, TextWriter error, bool isTerminal = false, bool isInput = false)
{
    public bool IsTerminal => isTerminal;

    /// <summary>Whether somebody sits at a terminal, to see and to press keys.</summary>
    public bool IsAttended => isTerminal && isInput;

    public static IAnsiConsole Terminal => AnsiConsole.Console;

    public TextWriter Output => output;

    public TextWriter Error => error;

    public void Line(string text = "")
    {
        if (isTerminal)
            Terminal.WriteLine(Shown.Of(text));
        else
            output.WriteLine(Shown.Of(text));
    }

    public void Heading(string text)
    {
        if (isTerminal)
            Terminal.MarkupLineInterpolated($"[bold]{Shown.Of(text)}[/]");
        else
            output.WriteLine(Shown.Of(text));
    }

    /// <summary>A line of trouble. Where even that cannot be written, the exit code alone tells.</summary>
    public void Problem(string text)
    {
        try
        {
            error.WriteLine(Shown.Of(text));
        }
        catch (IOException)
        {
            // There is nowhere left to say it.
        }
    }

    /// <summary>From now on a motor may move: output that cannot be written is no reason to end.</summary>
    public void GoOnWithoutOutput() => output.GoOnWithout(trouble => Problem($"No more can be shown ({trouble.Message.TrimEnd('.')}); the run goes on."));

    /// <summary>Everything that is refused, a line each.</summary>
    public void Refused(RefusedException refused)
    {
        foreach (var refusal in refused.Refusals)
            Problem($"Refused: {refusal}");
    }

    /// <summary>Names and values below one another, the values in one column.</summary>
    public void Facts(params (string Name, string Value)[] facts)
    {
        var width = facts.Max(fact => fact.Name.Length);
        foreach (var (name, value) in facts)
            Line($"  {name.PadRight(width)}  {value}");
    }

    /// <summary>A table of numbers under their heads.</summary>
    public void Numbers(string[] heads, IReadOnlyList<string[]> rows)
    {
        if (isTerminal)
        {
            var table = new Table().Border(TableBorder.Simple);
            foreach (var head in heads)
                table.AddColumn(new TableColumn(Markup.Escape(head)).RightAligned().NoWrap());
            foreach (var row in rows)
                table.AddRow([.. row.Select(Markup.Escape)]);
            Terminal.Write(table);
            return;
        }

        var widths = heads.Select((head, column) => rows.Select(row => row[column].Length).Append(head.Length).Max()).ToArray();
        foreach (var row in rows.Prepend(heads))
            output.WriteLine("  " + string.Join("  ", row.Select((value, column) => value.PadLeft(widths[column]))));
    }
}

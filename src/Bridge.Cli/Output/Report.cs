using Spectre.Console;

namespace Bridge.Cli;

/// <summary>Writes for a person at a terminal, or plain lines where the output goes to a file or another program.</summary>
internal sealed class Report(IAnsiConsole terminal, TextWriter plain, bool isTerminal)
{
    public bool IsTerminal => isTerminal;

    public IAnsiConsole Terminal => terminal;

    public void Line(string text = "")
    {
        if (isTerminal)
            terminal.MarkupLineInterpolated($"{text}");
        else
            plain.WriteLine(text);
    }

    public void Heading(string text)
    {
        if (isTerminal)
            terminal.MarkupLineInterpolated($"[bold]{text}[/]");
        else
            plain.WriteLine(text);
    }

    /// <summary>Names and values below one another, the values in one column.</summary>
    public void Facts(params (string Name, string Value)[] facts)
    {
        var width = facts.Max(fact => fact.Name.Length);
        foreach (var (name, value) in facts)
            Line($"  {name.PadRight(width)}  {value}");
    }

    /// <summary>A table whose first column is words or numbers and whose other columns are numbers.</summary>
    public void Numbers(string[] heads, IReadOnlyList<string[]> rows)
    {
        if (isTerminal)
        {
            var table = new Table().Border(TableBorder.Simple);
            foreach (var head in heads)
                table.AddColumn(new TableColumn(Markup.Escape(head)).RightAligned().NoWrap());
            foreach (var row in rows)
                table.AddRow([.. row.Select(Markup.Escape)]);
            terminal.Write(table);
            return;
        }

        var widths = heads.Select((head, column) => rows.Select(row => row[column].Length).Append(head.Length).Max()).ToArray();
        foreach (var row in rows.Prepend(heads))
            plain.WriteLine("  " + string.Join("  ", row.Select((value, column) => value.PadLeft(widths[column]))));
    }
}

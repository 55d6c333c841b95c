using Bridge.Teaching;
using Spectre.Console;

namespace Bridge.Cli;

/// <summary>Shows a stepped job: redrawn at a terminal, the picture beside the facts; else plain lines, one place below the other.</summary>
internal sealed class StepScreen(Report report, Stepper stepper, ISteppedDevice? device, string deviceName)
{
    private const int WidestPlain = 64;
    private const int WidestBeside = 32;
    private const int RowsBeside = 16;

    // To the upper left, and all that is seen is cleared (ECMA-48, CUP and ED); what was scrolled away stays.
    private static readonly ControlCode Blank = new("\u001b[H\u001b[2J");

    private readonly List<string> _notes = [];

    /// <summary>Takes words that are shown with the next place.</summary>
    public void Note(string words)
    {
        if (report.IsTerminal)
            _notes.Add(words);
        else
            report.Line(words);
    }

    /// <summary>Shows the place that the job has come to.</summary>
    public void Show()
    {
        var facts = StepView.Facts(stepper, device, deviceName);
        if (report.IsTerminal)
            Redraw(facts);
        else
            foreach (var line in facts.Concat(StepView.Picture(stepper, WidestPlain, WidestPlain)).Append(""))
                report.Line(line);
    }

    private void Redraw(IEnumerable<string> facts)
    {
        var view = new Grid().AddColumn(new GridColumn().NoWrap().PadRight(2)).AddColumn(new GridColumn());
        view.AddRow(
            new Text(string.Join('\n', StepView.Picture(stepper, WidestBeside, RowsBeside))),
            new Text(string.Join('\n', facts.Select(Shown.Of))));
        Report.Terminal.Write(Blank);
        Report.Terminal.Write(view);
        foreach (var note in _notes.Prepend(StepView.Legend))
            report.Line(note);
        _notes.Clear();
    }
}

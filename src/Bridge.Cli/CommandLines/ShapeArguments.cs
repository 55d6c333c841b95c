using System.CommandLine;
using System.CommandLine.Parsing;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>The options that say how a shape is read: how large, where, turned how; or the text that it is.</summary>
internal sealed class ShapeArguments
{
    private readonly Option<string> _text = new("--text")
    {
        Description = "Instead of a file: text in single strokes. A line break, or \\n, begins a new line.",
        HelpName = "WORDS",
    };
    private readonly Option<string> _font = Arguments.File("--font", "FILE", "For text: a font in Hershey's format (.jhf) instead of the plain alphabet.");
    private readonly Option<Length?> _height = Above0("--height", "LENGTH",
        "For text: how high a capital becomes, in cells or mm. Without it the text fills the grid.");
    private readonly Option<byte?> _threshold = Arguments.Threshold();
    private readonly Option<bool> _dither = Arguments.Dither();
    private readonly Option<bool> _wide = Arguments.Flag("--wide", "For a drawing: strokes as wide as it says, not one cell.");
    private readonly Option<Length?> _size = Above0("--size", "LENGTH", "How long the longest side becomes: cells, as in 40, or mm, as in 40mm. "
        + "Without it a picture's pixel is a cell, a drawing is as large as it says in mm, cm or inches, or else as fits, and a mesh is as large as fits.");
    private readonly Option<GridPlace> _place = new("--place")
    {
        Description = "Where the corner nearest (0, 0) comes to lie, as in 10,4 or 25mm,10mm; or middle.",
        HelpName = "X,Y",
        DefaultValueFactory = _ => GridPlace.Corner,
        CustomParser = written => GridPlace.Parse(Arguments.Word(written))
            ?? Arguments.Refuse<GridPlace>(written, "X,Y in cells or mm, as in 10,4 or 25mm,10mm, none below 0; or middle"),
    };
    private readonly Option<IReadOnlyList<Turn>> _turn = new("--turn")
    {
        Description = "Degrees counter-clockwise seen from above; cells and pictures by quarters. "
            + "For a mesh also about X or Y, one turn after the other, as in x90,30.",
        HelpName = "DEGREES",
        DefaultValueFactory = _ => [],
        CustomParser = written => Turn.ParseAll(Arguments.Word(written))
            ?? Arguments.Refuse<IReadOnlyList<Turn>>(written,
                $"degrees from -360 to 360, after x, y or z where not about Z; up to {Turn.Most} with commas between"),
    };
    private readonly Option<Length?> _hollow = Above0("--hollow", "WALL",
        "Leave walls so thick of what is solid, in cells or mm, and over layers a roof; open below.");

    /// <summary>Adds them to a command that takes a file by the given argument or option, or text instead.</summary>
    /// <param name="command">The command.</param>
    /// <param name="file">The name of what names the file.</param>
    /// <param name="path">The file that was named; null where none was.</param>
    /// <param name="isNeeded">Whether there must be a file or text.</param>
    public void AddTo(ExampleCommand command, string file, Func<SymbolResult, string?> path, bool isNeeded)
    {
        foreach (var option in new Option[] { _text, _font, _height, _size, _place, _turn, _threshold, _dither, _wide, _hollow })
            command.Options.Add(option);
        command.Demand(parsed =>
        {
            var (hasFile, hasText) = (path(parsed) is not null, parsed.GetValue(_text) is not null);
            if (hasFile ? hasText : isNeeded && !hasText)
                parsed.AddError($"{file}: found {(hasFile ? "a file and --text" : "nothing")}; allowed: a file, or --text with words.");
            if (!hasText && (parsed.GetValue(_font) ?? parsed.GetValue(_height)?.ToString()) is { } lone)
                parsed.AddError($"--font, --height: found {lone} and no text; allowed: beside --text.");
        });
    }

    /// <summary>Where the shape comes from: the file, or the text where there is no file; null where there is neither.</summary>
    public ShapeSource? Source(ParseResult parsed, string? path) =>
        path is not null ? ShapeSource.File(path)
        : parsed.GetValue(_text) is { } text ? ShapeSource.Text(text.Replace("\\n", "\n", StringComparison.Ordinal), parsed.GetValue(_font))
        : null;

    /// <summary>What a person gave; what is left out or made good is told in the report.</summary>
    public ShapeOptions Of(ParseResult parsed, Report report) => new()
    {
        Threshold = parsed.GetValue(_threshold),
        Dither = parsed.GetValue(_dither),
        Wide = parsed.GetValue(_wide),
        Size = parsed.GetValue(_size),
        Height = parsed.GetValue(_height),
        Place = parsed.GetRequiredValue(_place),
        Turns = parsed.GetRequiredValue(_turn),
        Hollow = parsed.GetValue(_hollow),
        Caution = told => report.Line($"Caution: {told}"),
    };

    private static Option<Length?> Above0(string name, string helpName, string description) => new(name)
    {
        Description = description,
        HelpName = helpName,
        CustomParser = written => Length.TryParse(Arguments.Word(written), out var length) && length.Value > 0
            ? length
            : Arguments.Refuse<Length?>(written, "cells, as in 40, or mm, as in 40mm, above 0 and up to 1 000 000"),
    };
}

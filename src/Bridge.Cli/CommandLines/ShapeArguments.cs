using System.CommandLine;
using System.CommandLine.Parsing;
using Bridge.Planning;

namespace Bridge.Cli;

/// <summary>The options that say how a shape is read: how large, where, turned how.</summary>
internal sealed class ShapeArguments
{
    private readonly Option<byte?> _threshold = Arguments.Threshold();
    private readonly Option<bool> _dither = Arguments.Dither();
    private readonly Option<bool> _wide = Arguments.Flag("--wide", "For a drawing: strokes as wide as it says, not one cell.");
    private readonly Option<Length?> _size = Above0("--size", "LENGTH", "How long the longest side becomes: cells, as in 40, or mm, as in 40mm. "
        + "Without it a picture's pixel is a cell, and a drawing is as large as it says in mm, cm or inches, or else as fits.");
    private readonly Option<GridPlace> _place = new("--place")
    {
        Description = "Where the corner nearest (0, 0) comes to lie, as in 10,4 or 25mm,10mm; or middle.",
        HelpName = "X,Y",
        DefaultValueFactory = _ => GridPlace.Corner,
        CustomParser = written => GridPlace.Parse(Word(written))
            ?? Refuse<GridPlace>(written, "X,Y in cells or mm, as in 10,4 or 25mm,10mm, none below 0; or middle"),
    };
    private readonly Option<IReadOnlyList<Turn>> _turn = new("--turn")
    {
        Description = "Degrees counter-clockwise seen from above; cells and pictures by quarters.",
        HelpName = "DEGREES",
        DefaultValueFactory = _ => [],
        CustomParser = written => Turn.ParseAll(Word(written))
            ?? Refuse<IReadOnlyList<Turn>>(written, $"degrees from -360 to 360, after x, y or z where not about Z; up to {Turn.Most} with commas between"),
    };
    private readonly Option<Length?> _hollow = Above0("--hollow", "WALL",
        "Leave walls so thick of what is solid, in cells or mm, and over layers a roof; open below.");

    /// <summary>All of them, to be added to a command.</summary>
    public IEnumerable<Option> Options => [_size, _place, _turn, _threshold, _dither, _wide, _hollow];

    /// <summary>Adds them to a command.</summary>
    public void AddTo(Command command)
    {
        foreach (var option in Options)
            command.Options.Add(option);
    }

    /// <summary>What a person gave; what is left out or made good is told in the report.</summary>
    public ShapeOptions Of(ParseResult parsed, Report report) => new()
    {
        Threshold = parsed.GetValue(_threshold),
        Dither = parsed.GetValue(_dither),
        Wide = parsed.GetValue(_wide),
        Size = parsed.GetValue(_size),
        Place = parsed.GetRequiredValue(_place),
        Turns = parsed.GetRequiredValue(_turn),
        Hollow = parsed.GetValue(_hollow),
        Caution = told => report.Line($"Caution: {told}"),
    };

    private static Option<Length?> Above0(string name, string helpName, string description) => new(name)
    {
        Description = description,
        HelpName = helpName,
        CustomParser = written => Length.TryParse(Word(written), out var length) && length.Value > 0
            ? length
            : Refuse<Length?>(written, "cells, as in 40, or mm, as in 40mm, above 0 and up to 1 000 000"),
    };

    private static string Word(ArgumentResult written) => written.Tokens is [var token] ? token.Value : "";

    private static T? Refuse<T>(ArgumentResult written, string allowed) => Arguments.Refuse<T>(written, allowed);
}

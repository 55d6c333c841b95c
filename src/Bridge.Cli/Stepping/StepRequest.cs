using System.Globalization;
using Bridge.Jobs;
using Bridge.Teaching;

namespace Bridge.Cli;

/// <summary>What a job is stepped by.</summary>
internal enum StepUnit
{
    Cell,
    Record,
    Layer,
}

/// <summary>One thing that a person types while they step.</summary>
internal abstract record StepRequest
{
    private const int MostTimes = 1_000_000_000;

    /// <summary>What may be typed, a line each.</summary>
    public static IReadOnlyList<string> Help { get; } =
    [
        "cell, record, layer        go on by one; with a number behind it by so many, as in: cell 5",
        "to record N, to layer N    go on until that comes next",
        "to cell X,Y                go on until that cell is worked; X,Y,LAYER on one layer",
        "to CONDITION               go on until it holds, as in: to head b works, to x = 7, to layer >= 2 and left = 0",
        "to end                     go on to the end of the job",
        "back, back 3 cells         go back by a record; by cells, records or layers with a number before them or not",
        "jump N                     go on at record N from here: what that means is told first",
        "show                       show once more where it stands",
        "leave                      end the stepping",
        "Enter alone does the last one again. c, r, l and b stand for cell, record, layer and back.",
    ];

    public sealed record Forward(StepUnit Unit, int Times) : StepRequest;

    public sealed record To(Func<Stopped, bool> Holds, string Words) : StepRequest;

    public sealed record ToEnd : StepRequest;

    public sealed record Back(StepUnit Unit, int Times) : StepRequest;

    public sealed record Jump(int Record) : StepRequest;

    public sealed record Show : StepRequest;

    public sealed record Explain : StepRequest;

    public sealed record Leave : StepRequest;

    /// <summary>Reads a line that is not empty.</summary>
    /// <exception cref="RefusedException">It is none of what may be typed, or names what the job does not have.</exception>
    public static StepRequest Parse(string line, Image image, Grid grid)
    {
        var words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words switch
        {
            ["show"] => new Show(),
            ["help" or "?"] => new Explain(),
            ["leave"] => new Leave(),
            ["jump", var record] => new Jump(RecordOf(line, record, image)),
            ["to", "end"] => new ToEnd(),
            ["to", .. var goal] when goal.Length > 0 => GoalOf(line, goal, image, grid),
            ["back" or "b", .. var how] => BackOf(line, how),
            [var unit] when UnitOf(unit) is { } by => new Forward(by, 1),
            [var unit, var times] when UnitOf(unit) is { } by => new Forward(by, Number(line, times, 1, MostTimes)),
            _ => throw Refused(line),
        };
    }

    private static To GoalOf(string line, string[] goal, Image image, Grid grid)
    {
        switch (goal)
        {
            case ["record", var word] when IsNumber(word):
                var record = RecordOf(line, word, image);
                return new To(stop => stop.BeginsNext == record, $"record {record}");
            case ["layer", var word] when IsNumber(word):
                var layer = Number(line, word, 0, grid.Layers - 1);
                return new To(stop => stop.NextRises && stop.Position.Layer == layer - 1, $"layer {layer}");
            case ["cell", var word]:
                var (cell, on) = CellOf(line, word, grid);
                return new To(stop => stop.HasWorked && stop.Position.Cell == cell && (on is null || stop.Position.Layer == on), $"cell {cell}");
            default:
                var text = string.Join(' ', goal);
                return new To(StepCondition.Parse(text), text);
        }
    }

    private static Back BackOf(string line, string[] how) => how switch
    {
        [] => new Back(StepUnit.Record, 1),
        [var unit] when UnitOf(unit) is { } by => new Back(by, 1),
        [var times, var unit] when UnitOf(unit) is { } by => new Back(by, Number(line, times, 1, MostTimes)),
        _ => throw Refused(line),
    };

    private static StepUnit? UnitOf(string word) => word switch
    {
        "cell" or "cells" or "c" => StepUnit.Cell,
        "record" or "records" or "r" => StepUnit.Record,
        "layer" or "layers" or "l" => StepUnit.Layer,
        _ => null,
    };

    private static (Cell Cell, int? Layer) CellOf(string line, string word, Grid grid)
    {
        var parts = word.Split(',');
        if (parts.Length is not (2 or 3))
            throw new RefusedException(line, word, "X,Y or X,Y,LAYER", "Write it so, as in: to cell 3,4.");
        return (new Cell(Number(line, parts[0], 0, grid.X - 1), Number(line, parts[1], 0, grid.Y - 1)),
            parts.Length == 3 ? Number(line, parts[2], 0, grid.Layers - 1) : null);
    }

    private static int RecordOf(string line, string word, Image image) => Number(line, word, 0, image.Count - 1);

    private static bool IsNumber(string word) => word.All(char.IsAsciiDigit);

    private static int Number(string line, string word, int least, int most) =>
        int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most
            ? number
            : throw new RefusedException(line, word, $"{least} to {most}", "Nothing was moved. Give a number of these.");

    private static RefusedException Refused(string line) => new(
        "what was typed", line, "cell, record, layer, to, back, jump, show, help, leave", "Nothing was moved. help tells more.");
}

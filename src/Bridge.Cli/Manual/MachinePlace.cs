using System.Globalization;
using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>A place on a machine's grid as a person writes it: X,Y or X,Y,LAYER in cells, or in mm with mm behind each.</summary>
internal static class MachinePlace
{
    private const string Unit = "mm";
    private const double NearCells = 1e-6;

    /// <summary>Reads a place, for head a.</summary>
    /// <exception cref="RefusedException">It is not written so, lies outside the grid, or between two cells.</exception>
    public static Position Parse(string option, string word, Machine machine)
    {
        var numbers = word.Split(',');
        var lengths = numbers.Take(machine.Z is null ? 2 : 3).ToList(); // without a Z the layer is no length
        var isMm = lengths.TrueForAll(number => number.EndsWith(Unit, StringComparison.Ordinal));
        if (numbers.Length is not (2 or 3) || (!isMm && lengths.Exists(number => number.EndsWith(Unit, StringComparison.Ordinal))))
            throw Refused(option, word, machine);
        var axes = new[] { ("X", machine.X.PitchMm), ("Y", machine.Y.PitchMm), ("the layer", machine.Z?.PitchMm ?? 1) };
        var cells = numbers.Select((number, index) => isMm && index < 2 || isMm && machine.Z is not null
            ? OfMm(option, word, number[..^Unit.Length], axes[index].Item1, axes[index].Item2, machine)
            : OfCells(option, word, number, machine)).ToArray();
        var place = new Position(new Cell(cells[0], cells[1]), cells.Length == 3 ? cells[2] : 0, Head.A);
        return machine.Grid.Holds(place.Cell) && place.Layer < machine.Grid.Layers ? place : throw Refused(option, word, machine);
    }

    private static int OfCells(string option, string word, string number, Machine machine) =>
        int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var cells) ? cells : throw Refused(option, word, machine);

    private static int OfMm(string option, string word, string number, string axis, double pitch, Machine machine)
    {
        if (!double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm) || mm > pitch * int.MaxValue)
            throw Refused(option, word, machine);
        var cells = mm / pitch;
        var below = (int)Math.Floor(cells + NearCells);
        if (Math.Abs(cells - Math.Round(cells)) <= NearCells)
            return (int)Math.Round(cells);
        throw new RefusedException(option, $"{word}: {axis} = {number} mm lies between two cells", "the grid's own places",
            FormattableString.Invariant($"Take {below * pitch:0.###} or {(below + 1) * pitch:0.###} mm."));
    }

    private static RefusedException Refused(string option, string word, Machine machine) => new(
        option, word, $"X,Y or X,Y,LAYER on the grid of {machine.Grid} cells, counted from 0, or the same in mm as in 20mm,35mm", "Give a place on the grid.");
}

using Bridge.Jobs;
using Bridge.Teaching;

namespace Bridge.Cli;

/// <summary>A place of a stepped job in words and signs.</summary>
internal static class StepView
{
    public const string Legend = "A, B worked; & by both heads; o the machine's place; a, b, @ it, and worked";

    /// <summary>What is known at a place, a line each.</summary>
    public static IEnumerable<string> Facts(Stepper stepper, ISteppedDevice? device, string deviceName)
    {
        var (stop, image) = (stepper.Stop, stepper.Image);
        var at = stop.Position;
        yield return Fact("at", $"{at.Cell} on layer {at.Layer} (the machine's last is {stepper.Grid.Layers - 1}), head {RecordWords.Name(at.Head)}");
        yield return Fact("record", stop.Index is { } index
            ? $"{index} of 0 to {image.Count - 1}: {RecordWords.Meaning(image.Width, image[index])}"
            : "none begun");
        yield return Fact("counter", $"{Counted.Of(stop.CellsLeft, "cell")} of it left");
        yield return Fact("repeat", stop.Repeat is { } repeat
            ? $"records {repeat.First} to {repeat.Again - 1}, {Counted.Of(repeat.RoundsLeft, "more round")} (again at {repeat.Again})"
            : "empty");
        yield return Fact("done", $"{Counted.Of(stop.Steps, "record")}; {stop.Cells.A} cells by head a, {stop.Cells.B} by head b");
        if (device is not null)
            yield return Fact(deviceName, device.Told);
        foreach (var line in Next(stop, image))
            yield return line;
    }

    /// <summary>The layer's picture so far, the far edge first; of a large one the part around the machine.</summary>
    public static IEnumerable<string> Picture(Stepper stepper, int mostColumns, int mostRows)
    {
        var (grid, at) = (stepper.Grid, stepper.Stop.Position.Cell);
        var (columns, rows) = (Math.Min(grid.X, mostColumns), Math.Min(grid.Y, mostRows));
        var (left, low) = (Math.Clamp(at.X - columns / 2, 0, grid.X - columns), Math.Clamp(at.Y - rows / 2, 0, grid.Y - rows));
        if (columns < grid.X || rows < grid.Y)
            yield return $"x {left} to {left + columns - 1}, y {low} to {low + rows - 1}:";
        for (var y = low + rows - 1; y >= low; y--)
            yield return string.Concat(Enumerable.Range(left, columns).Select(x => Sign(stepper.Picture, new Cell(x, y), at)));
    }

    private static IEnumerable<string> Next(Stop stop, Image image)
    {
        if (stop.Fault is { } fault)
            yield return $"The next record cannot be done: {fault}";
        else if (stop.IsComplete)
            yield return "The job is complete.";
        if (stop.Next is not { } next)
            yield break;
        var bytes = image.Bytes.Span.Slice(next * image.Width.Bytes, image.Width.Bytes);
        yield return Fact("next", $"{next}, byte {next * image.Width.Bytes}: {ShowCommand.Spaced(bytes)}");
        foreach (var line in RecordField.Table(RecordField.Of(image.Width, image[next])))
            yield return $"  {line}";
        yield return $"  {RecordWords.Meaning(image.Width, image[next])}";
    }

    private static string Fact(string name, string value) => $"{name,-8} {value}";

    private static char Sign(StepPicture picture, Cell cell, Cell at) => (picture.Has(cell, Head.A), picture.Has(cell, Head.B)) switch
    {
        (true, true) => cell == at ? '@' : '&',
        (true, false) => cell == at ? 'a' : 'A',
        (false, true) => cell == at ? 'b' : 'B',
        _ => cell == at ? 'o' : '.',
    };
}

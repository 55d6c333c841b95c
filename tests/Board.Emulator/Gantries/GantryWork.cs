using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Board.Emulator;

/// <summary>A cell that a head has worked.</summary>
public readonly record struct WorkedPlace(Cell Cell, int Layer, Head Head);

/// <summary>A pen's way over the paper: places of the pen in steps, one a step.</summary>
public sealed record Stroke(Head Head, List<(int X, int Y)> Places);

/// <summary>
/// What the heads have worked, as it can be seen from outside. A dot that goes on and off without a step between is a cell; so is every centre of a cell
/// that a pen stands on or passes exactly. Dots off a centre are told apart.
/// </summary>
public sealed class GantryWork
{
    private readonly VirtualGantry gantry;
    private readonly SetAxis[] axes;
    private readonly SetHead[] heads;
    private readonly Dictionary<int, int>[] cellAt;
    private readonly (int X, int Y, int Z)?[] dotBegan = new (int, int, int)?[2];
    private readonly Stroke?[] strokes = new Stroke?[2];
    private readonly List<WorkedPlace> worked = [];
    private readonly List<Stroke> allStrokes = [];

    internal GantryWork(VirtualGantry gantry, Machine machine)
    {
        this.gantry = gantry;
        axes = [.. SetupMessages.OfAxes(machine)];
        heads = [.. SetupMessages.OfHeads(machine)];
        var counts = new[] { machine.X.Cells, machine.Y.Cells, machine.Grid.Layers };
        cellAt = [.. axes.Select((axis, index) => Enumerable.Range(0, counts[index]).ToDictionary(cell => StepsOfCell(axis, cell)))];
    }

    /// <summary>The cells in the order in which they were worked.</summary>
    public IReadOnlyList<WorkedPlace> Worked => worked;

    /// <summary>Everything drawn.</summary>
    public IReadOnlyList<Stroke> Strokes => allStrokes;

    /// <summary>Dots that were made away from the centre of any cell, or while something moved.</summary>
    public long SpoiledDots { get; private set; }

    /// <summary>From the centre of cell 0 to that of another (SPEC.md, section 4, set_axis).</summary>
    public static int StepsOfCell(SetAxis axis, int cell) => (int)(((long)cell * axis.StepsPerCellQ16 + 0x8000) >> 16);

    /// <summary>Looks at a head after a step, or after a change of its output.</summary>
    internal void Note(int head, ulong cycle)
    {
        if (gantry.Heads[head].IsPen)
            NotePen(head);
        else
            NoteDot(head);
    }

    internal Action Save()
    {
        var (dots, drawn, all, cells, spoiled) = (dotBegan.ToArray(), strokes.ToArray(), allStrokes.ToArray(), worked.ToArray(), SpoiledDots);
        var lengths = drawn.Select(stroke => stroke?.Places.Count ?? 0).ToArray();
        return () =>
        {
            dots.CopyTo(dotBegan, 0);
            drawn.CopyTo(strokes, 0);
            for (var head = 0; head < drawn.Length; head++)
                drawn[head]?.Places.RemoveRange(lengths[head], drawn[head]!.Places.Count - lengths[head]);
            allStrokes.Clear();
            allStrokes.AddRange(all);
            worked.Clear();
            worked.AddRange(cells);
            SpoiledDots = spoiled;
        };
    }

    private void NotePen(int head)
    {
        if (!gantry.Heads[head].Works)
        {
            strokes[head] = null;
            return;
        }
        var place = PlaceOf(head);
        var stroke = strokes[head];
        if (stroke is null)
            allStrokes.Add(stroke = strokes[head] = new Stroke((Head)head, []));
        if (stroke.Places.Count > 0 && stroke.Places[^1] == (place.X, place.Y))
            return;
        stroke.Places.Add((place.X, place.Y));
        if (CellOf(place) is { } cell)
            worked.Add(new WorkedPlace(cell.Cell, cell.Layer, (Head)head));
    }

    private void NoteDot(int head)
    {
        var place = PlaceOf(head);
        var isOn = gantry.Heads[head].Works;
        if (isOn && dotBegan[head] is null)
            dotBegan[head] = place;
        else if (isOn && dotBegan[head] != place)
            SpoiledDots++;
        else if (!isOn && dotBegan[head] is not null)
        {
            dotBegan[head] = null;
            if (CellOf(place) is { } cell)
                worked.Add(new WorkedPlace(cell.Cell, cell.Layer, (Head)head));
            else
                SpoiledDots++;
        }
    }

    /// <summary>Where a head is, in steps from the centre of cell (0, 0) on layer 0.</summary>
    public (int X, int Y, int Z) PlaceOf(int head) => (
        gantry.Axes[0].Carriage + heads[head].OffsetXSteps, gantry.Axes[1].Carriage + heads[head].OffsetYSteps,
        gantry.Axes.Count > 2 ? gantry.Axes[2].Carriage : 0);

    private (Cell Cell, int Layer)? CellOf((int X, int Y, int Z) place)
    {
        var layer = 0;
        if (!cellAt[0].TryGetValue(place.X, out var x) || !cellAt[1].TryGetValue(place.Y, out var y))
            return null;
        return axes.Length < 3 || cellAt[2].TryGetValue(place.Z, out layer) ? (new Cell(x, y), layer) : null;
    }
}

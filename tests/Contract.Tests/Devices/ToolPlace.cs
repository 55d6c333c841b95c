using Bridge.Jobs;

namespace Contract.Tests;

/// <summary>Where the tool of a head really is.</summary>
internal sealed class ToolPlace(Machine machine)
{
    /// <summary>The cell that is meant if the tool is near enough to it, else the one under the tool.</summary>
    /// <param name="meant">What the device says that it works.</param>
    /// <param name="carriage">Where the carriage is along X, Y and Z, in steps from the centre of cell 0.</param>
    public Position CellOf(Position meant, ReadOnlySpan<int> carriage)
    {
        var tool = machine.Tool(meant.Head)!;
        var near = tool is HeadTool.Pen ? 0.95 : 0.5; // a pen passes beside the cells of a slanting line
        var x = Under(carriage[0] + tool.OffsetXMm * machine.X.StepsPerMm, machine.X, meant.Cell.X, near);
        var y = Under(carriage[1] + tool.OffsetYMm * machine.Y.StepsPerMm, machine.Y, meant.Cell.Y, near);
        return new Position(new Cell(x, y), machine.Z is { } z ? Under(carriage[2], z, meant.Layer, 0.5) : meant.Layer, meant.Head);
    }

    private static int Under(double steps, Axis axis, int meant, double near)
    {
        // The play, and the steps that places and offsets are rounded to.
        near += axis.BacklashMm / axis.PitchMm + 2 / (axis.PitchMm * axis.StepsPerMm);
        var beside = steps / (axis.PitchMm * axis.StepsPerMm) - meant;
        return Math.Abs(beside) <= near ? meant : meant + (int)Math.Round(beside);
    }
}

using Bridge.Jobs;

namespace Fuzz.Tests;

/// <summary>Executes a job: within a bound, every cell on the grid, as many cells as the passes say.</summary>
internal static class Execution
{
    private const int MostCells = 20_000;

    public static void Check(Image image, Grid grid)
    {
        var (interpreter, cells) = (new Interpreter(image, grid), 0);
        while (cells < MostCells && interpreter.MoveNext())
        {
            cells++;
            var worked = interpreter.Current;
            Assert.True(grid.Holds(worked.Cell) && worked.Layer >= 0 && worked.Layer < grid.Layers, $"{worked} is not on {grid}.");
            Assert.InRange(worked.Index, 0, image.Count - 1);
        }

        if (cells == MostCells)
            return;
        var (passes, counted) = (new PassReader(image, grid), 0L);
        while (passes.TryNext(out var pass))
            counted += pass.Work.Cells;
        Assert.Equal(cells, counted);
        Assert.Equal(interpreter.Fault, passes.Fault);
        if (passes.Fault is { } fault)
            Assert.NotEmpty(fault.Refusal.Action);
    }
}

using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>What the mock's gantry really worked: a motor that skips steps is seen nowhere else.</summary>
internal static class MockTruth
{
    /// <summary>In how many cells the gantry's truth differs from what the device told; cells off the grid count.</summary>
    public static long Differing(MockPort mock, WorkedCells told, Grid grid)
    {
        var gantry = new WorkedCells(grid);
        var outside = 0L;
        foreach (var at in mock.ByHand(mocked => mocked.Gantry.Worked))
            if (grid.Holds(at.Cell) && at.Layer >= 0 && at.Layer < grid.Layers)
                gantry.Add(at.Cell, at.Layer, at.Head);
            else
                outside++;
        return gantry.CountDifferences(told) + outside;
    }
}

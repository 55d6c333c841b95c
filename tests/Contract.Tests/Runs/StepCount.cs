using Bridge.Jobs;
using Bridge.Runs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>
/// Steps that a job takes on each axis, counted from the cells alone: the ways between the places that it must visit, and the play
/// at each turn.
/// </summary>
internal sealed class StepCount
{
    private readonly Machine _machine;
    private readonly SetAxis[] _axes;
    private readonly SetHead[] _heads;
    private readonly long[] _steps = new long[3];
    private readonly long[] _at = new long[3];
    private readonly int[] _way = new int[3];

    private StepCount(Machine machine)
    {
        (_machine, _axes, _heads) = (machine, [.. SetupMessages.OfAxes(machine)], [.. SetupMessages.OfHeads(machine)]);
        for (var axis = 0; axis < _axes.Length; axis++)
            (_at[axis], _way[axis]) = (PlaceOf(axis, default), _axes[axis].EndstopAtMax ? -1 : 1);
    }

    /// <summary>Steps along X, Y and Z, from home.</summary>
    public static long[] Of(Machine machine, Record[] records)
    {
        var count = new StepCount(machine);
        var passes = new PassReader(Image.Of(machine.Width, records), machine.Grid);
        var isDown = false;
        while (passes.TryNext(out var pass))
            isDown = count.Add(pass, isDown);
        Assert.Null(passes.Fault);
        return count._steps;
    }

    /// <summary>Adds a record; tells whether a pen is down after it.</summary>
    private bool Add(Pass pass, bool isDown)
    {
        var isPen = _machine.Tool(pass.Entry.Head) is HeadTool.Pen;
        var isLifted = pass.Entry.Layer != pass.Before.Layer || pass.Entry.Head != pass.Before.Head
            || pass.Entry.Cell != pass.Before.Cell || pass.Record.Verb == Verb.Wait;
        isDown &= !isLifted;
        Rise(pass.Entry);
        // A pen that is up goes straight to the first cell that it works.
        if (pass.Record.Verb != Verb.Line || !isPen || isDown || pass.Work.Cells == 0)
            Visit(pass.Entry);
        foreach (var cell in pass.Work)
            Visit(pass.Entry with { Cell = cell });
        return isPen && (isDown || pass.Work.Cells > 0);
    }

    private void Rise(Position position)
    {
        if (_axes.Length == 3)
            Go(2, PlaceOf(2, position));
    }

    private void Visit(Position position)
    {
        Go(0, PlaceOf(0, position));
        Go(1, PlaceOf(1, position));
    }

    private void Go(int axis, long to)
    {
        var way = Math.Sign(to - _at[axis]);
        _steps[axis] += Math.Abs(to - _at[axis]) + (way != 0 && way != _way[axis] ? _axes[axis].BacklashSteps : 0);
        (_at[axis], _way[axis]) = (to, way != 0 ? way : _way[axis]);
    }

    private long PlaceOf(int axis, Position position)
    {
        var cell = axis switch { 0 => position.Cell.X, 1 => position.Cell.Y, _ => position.Layer };
        var head = _heads[(int)position.Head];
        var offset = axis switch { 0 => head.OffsetXSteps, 1 => head.OffsetYSteps, _ => 0 };
        return ((cell * (long)_axes[axis].StepsPerCellQ16 + 0x8000) >> 16) - offset;
    }
}

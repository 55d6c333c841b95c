namespace Bridge.Mock;

/// <summary>Makes faults happen to a gantry as cells are worked and time passes. Times are in seconds.</summary>
internal sealed class FaultSchedule
{
    private readonly MockFaults _faults;
    private readonly Gantry _gantry;

    public FaultSchedule(MockFaults faults, Gantry gantry)
    {
        (_faults, _gantry) = (faults, gantry);
        BreakEndstops(0);
    }

    /// <summary>Whether the line has been cut; whoever acts on it sets it back.</summary>
    public bool LineIsCut { get; set; }

    /// <summary>When something happens by itself; infinite for never.</summary>
    public double NextEvent { get; private set; } = double.PositiveInfinity;

    /// <summary>A cell has been worked.</summary>
    public void CountCell(double now)
    {
        var cells = _gantry.CellsWorked;
        BreakEndstops(cells);
        foreach (var skip in _faults.Skips)
            if (skip.AtCell == cells)
                _gantry.Slip(skip.Axis, skip.Steps);
        if (_faults.CutAt == cells)
            LineIsCut = true;
        if (_faults.EStopAt != cells)
            return;
        _gantry.PressEStop();
        if (_faults.EStopReleasedAfter is { } after)
            NextEvent = now + after.TotalSeconds;
    }

    /// <summary>Does what is due.</summary>
    public void AdvanceTo(double now)
    {
        if (now < NextEvent)
            return;
        NextEvent = double.PositiveInfinity;
        _gantry.ReleaseEStop();
    }

    private void BreakEndstops(long cells)
    {
        foreach (var failure in _faults.Endstops)
            if (failure.AtCell == cells && _gantry.Axis(failure.Axis) is { } axis)
                axis.Fault = failure.Fault;
    }
}

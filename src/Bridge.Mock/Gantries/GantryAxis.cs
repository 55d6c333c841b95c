using Bridge.Jobs;

namespace Bridge.Mock;

/// <summary>One axis as it really is: where its carriage stands, where its frame ends, and its normally-closed endstop.</summary>
public sealed class GantryAxis
{
    private const double FrameMm = 2; // behind the endstop's closing point

    private readonly Axis _axis;
    private readonly double _least;
    private readonly double _most;

    /// <summary>
    /// An axis whose carriage stands anywhere; beyond the far cells its frame leaves room for the heads' offsets.
    /// </summary>
    internal GantryAxis(Axis axis, double roomMm, double startMm)
    {
        _axis = axis;
        var far = (axis.Cells - 1) * axis.PitchMm;
        ClosesAtMm = axis.Endstop == AxisEnd.Min ? -axis.EndstopGapMm : far + axis.EndstopGapMm;
        _least = axis.Endstop == AxisEnd.Min ? ClosesAtMm - FrameMm : -roomMm - FrameMm;
        _most = axis.Endstop == AxisEnd.Max ? ClosesAtMm + FrameMm : far + roomMm + FrameMm;
        PlaceMm = startMm;
    }

    /// <summary>Where the carriage stands, in mm from cell 0.</summary>
    public double PlaceMm { get; private set; }

    /// <summary>Where the endstop closes, in mm from cell 0.</summary>
    public double ClosesAtMm { get; }

    /// <summary>What is wrong with the endstop.</summary>
    public EndstopFault Fault { get; set; }

    /// <summary>Whether the motor has stalled at an end of the frame.</summary>
    public bool HasStalled { get; private set; }

    /// <summary>Whether the device sees the endstop as reached. Normally closed: a cut wire looks the same.</summary>
    public bool IsClosed => Fault switch
    {
        EndstopFault.StuckOpen => false,
        EndstopFault.StuckClosed => true,
        _ => _axis.Endstop == AxisEnd.Min ? PlaceMm <= ClosesAtMm + 1e-6 : PlaceMm >= ClosesAtMm - 1e-6,
    };

    /// <summary>
    /// The cell under something that the carriage carries at an offset: the one that is meant if it is within half a cell of
    /// it, else the nearest.
    /// </summary>
    internal int CellAt(double offsetMm, int meant)
    {
        var beside = (PlaceMm + offsetMm) / _axis.PitchMm - meant;
        return Math.Abs(beside) <= 0.5 + 1e-6 ? meant : meant + (int)Math.Round(beside);
    }

    /// <summary>Length of a number of steps in mm.</summary>
    internal double ToMm(double steps) => steps / _axis.StepsPerMm;

    internal void Move(double steps)
    {
        var wanted = PlaceMm + ToMm(steps);
        PlaceMm = Math.Clamp(wanted, _least, _most);
        HasStalled |= Math.Abs(wanted - PlaceMm) > 1e-6;
    }

    /// <summary>The part, 0 to 1, of a move at which the endstop closes; null where it does not, or is closed already.</summary>
    internal double? PartToClose(double steps)
    {
        if (Fault == EndstopFault.StuckOpen || IsClosed || steps == 0)
            return null;
        var part = (ClosesAtMm - PlaceMm) / ToMm(steps);
        return part is >= 0 and <= 1 ? part : null;
    }
}

/// <summary>What is wrong with an endstop.</summary>
public enum EndstopFault
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>It never reads as reached.</summary>
    StuckOpen,

    /// <summary>It always reads as reached, as a cut wire does.</summary>
    StuckClosed,
}

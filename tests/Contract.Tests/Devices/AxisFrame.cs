using Bridge.Jobs;

namespace Contract.Tests;

/// <summary>One axis of a real gantry in steps from the centre of cell 0: its last cell, its endstop and the ends of its frame.</summary>
internal readonly struct AxisFrame
{
    private const double BehindEndstopMm = 2;

    public AxisFrame(Machine machine, AxisName name)
    {
        var axis = machine.AxisOf(name);
        var steps = axis.StepsPerMm;
        var room = name == AxisName.Z ? 0 : new[] { machine.A, machine.B }.OfType<HeadTool>()
            .Max(tool => Math.Max(Math.Abs(tool.OffsetXMm), Math.Abs(tool.OffsetYMm)));
        var farMm = (axis.Cells - 1) * axis.PitchMm;
        Far = (int)(farMm * steps);
        ClosesUp = axis.Endstop == AxisEnd.Max;
        ClosesAt = (int)Math.Round((ClosesUp ? farMm + axis.EndstopGapMm : -axis.EndstopGapMm) * steps);
        Least = ClosesUp ? (int)((-room - BehindEndstopMm) * steps) : ClosesAt - (int)(BehindEndstopMm * steps);
        Most = ClosesUp ? ClosesAt + (int)(BehindEndstopMm * steps) : (int)((farMm + room + BehindEndstopMm) * steps);
    }

    public int Far { get; }

    public bool ClosesUp { get; }

    public int ClosesAt { get; }

    public int Least { get; }

    public int Most { get; }
}

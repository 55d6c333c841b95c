using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Mock;

/// <summary>
/// Finds the machine's zero: Z first where its endstop is away from the work, else last; each axis to its endstop and back to
/// the nearest cell; then home.
/// </summary>
internal sealed class Referencing(Machine machine, Gantry gantry, Player player, Acts acts)
{
    private const int MostWaysAway = 4; // an endstop that is closed still has a cut wire: its carriage is not driven on to its frame

    private readonly Carriage _carriage = new(machine);

    /// <summary>Axes that are referenced by now.</summary>
    public HashSet<AxisName> Referenced { get; } = [];

    /// <summary>Where each axis was, in mm from cell 0 by its count, when its endstop closed.</summary>
    public Dictionary<AxisName, double> Counts { get; } = [];

    /// <summary>The axis that looks for its endstop; null while none does.</summary>
    public AxisName? Seeking { get; private set; }

    /// <summary>Whether an axis did not find its endstop or did not leave it.</summary>
    public bool HasFailed { get; private set; }

    /// <summary>What to do, act by act; each is to be done before the next is asked for.</summary>
    public IEnumerable<Act> Acts()
    {
        foreach (var name in Order())
        {
            foreach (var act in Reference(name, AxisOf(name)))
                yield return act;
            if (HasFailed)
                yield break;
            Referenced.Add(name);
        }

        foreach (var act in acts.Home(player.At))
            yield return act;
    }

    private AxisName[] Order() => machine.Z switch
    {
        null => [AxisName.X, AxisName.Y],
        { Endstop: AxisEnd.Max } => [AxisName.Z, AxisName.X, AxisName.Y],
        _ => [AxisName.X, AxisName.Y, AxisName.Z],
    };

    private Axis AxisOf(AxisName name) => name switch { AxisName.X => machine.X, AxisName.Y => machine.Y, _ => machine.Z! };

    private IEnumerable<Act> Reference(AxisName name, Axis axis)
    {
        var towards = axis.Endstop == AxisEnd.Min ? -1 : 1;
        var length = SeekLength(axis);
        var away = Math.Max(axis.EndstopGapMm, axis.PitchMm / 4);
        for (var way = 0; gantry.Axis(name)!.IsClosed && way < MostWaysAway; way++)
            yield return Creep(name, axis, -towards * away);
        if (!gantry.Axis(name)!.IsClosed)
        {
            Seeking = name;
            yield return Creep(name, axis, towards * length);
            Seeking = null;
            HasFailed = !gantry.Axis(name)!.IsClosed;
        }
        else
        {
            HasFailed = true;
        }

        if (HasFailed)
            yield break;
        Counts[name] = Along(player.At, name);
        var far = (axis.Cells - 1) * axis.PitchMm;
        player.At = With(player.At, name, towards < 0 ? -axis.EndstopGapMm : far + axis.EndstopGapMm);
        var to = With(player.At, name, (towards < 0 ? 0 : far) - OffsetOf(name));
        yield return Act.Move(ActKind.IdleMove, player.At, to, _carriage.ProfileAlong(to - player.At));
        HasFailed = gantry.Axis(name)!.IsClosed;
    }

    /// <summary>The longest way to an endstop: the axis, its gap and the heads' offsets, and a quarter more.</summary>
    private double SeekLength(Axis axis)
    {
        var offset = new[] { machine.A, machine.B }.OfType<HeadTool>()
            .Max(tool => Math.Max(Math.Abs(tool.OffsetXMm), Math.Abs(tool.OffsetYMm)));
        return 1.25 * ((axis.Cells - 1) * axis.PitchMm + offset + axis.EndstopGapMm) + axis.EndstopGapMm;
    }

    private Act Creep(AxisName name, Axis axis, double way)
    {
        var to = With(player.At, name, Along(player.At, name) + way);
        return Act.Move(ActKind.IdleMove, player.At, to, new Trapezoid(Math.Abs(way), axis.ReferenceSpeedMmS, axis.AccelMmS2));
    }

    private double OffsetOf(AxisName name) => name switch { AxisName.X => machine.A.OffsetXMm, AxisName.Y => machine.A.OffsetYMm, _ => 0 };

    private static double Along(Place place, AxisName name) =>
        name switch { AxisName.X => place.XMm, AxisName.Y => place.YMm, _ => place.ZMm };

    private static Place With(Place place, AxisName name, double value) => name switch
    {
        AxisName.X => place with { XMm = value },
        AxisName.Y => place with { YMm = value },
        _ => place with { ZMm = value },
    };
}

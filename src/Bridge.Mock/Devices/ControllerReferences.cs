using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Mock;

/// <summary>Tells what the count was when the axes were referenced. The gantry has no play, so none was taken up on the way.</summary>
internal sealed partial class Controller
{
    private HashSet<AxisName> _believed = []; // referenced before the machine was told again, and held by their motors since
    private HashSet<AxisName> _known = [];

    /// <summary>Whether a host waits for them.</summary>
    public bool ReferencesAreAsked { get; private set; }

    public Answer AskReferences()
    {
        ReferencesAreAsked = true;
        return Answer.Accepted;
    }

    public References ReadReferences()
    {
        ReferencesAreAsked = false;
        return new References
        {
            Known = BitsOf(_known.Contains),
            WentUp = BitsOf(name => AxisOf(name) is { Endstop: AxisEnd.Max }),
            X = CountOf(AxisName.X),
            Y = CountOf(AxisName.Y),
            Z = CountOf(AxisName.Z),
        };
    }

    private static BoardAxes BitsOf(Func<AxisName, bool> holds) =>
        Axes.Where(holds).Aggregate(BoardAxes.None, (bits, name) => bits | (BoardAxes)(1 << (int)name));

    private int CountOf(AxisName name) =>
        _referencing?.Counts.TryGetValue(name, out var mm) == true && AxisOf(name) is { } axis ? (int)Math.Round(mm * axis.StepsPerMm) : 0;

    private Axis? AxisOf(AxisName name) => _setup.Machine is not { } machine ? null
        : name switch { AxisName.X => machine.X, AxisName.Y => machine.Y, _ => machine.Z };
}

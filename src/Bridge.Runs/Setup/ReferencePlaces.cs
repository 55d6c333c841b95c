using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>
/// Where each axis found its zero, reference after reference, in mm on the scale of its own steps, from the first one. A reference tells how far the count was
/// off from where the one before had put it; the places are the sums of that.
/// </summary>
public sealed class ReferencePlaces
{
    private readonly SortedDictionary<AxisName, List<double>> _places = [];

    /// <summary>The places of each axis that was referenced twice or more; the first is 0.</summary>
    public IEnumerable<(AxisName Axis, IReadOnlyList<double> Mm)> Axes => _places.Select(axis => (axis.Key, (IReadOnlyList<double>)axis.Value));

    /// <summary>Adds what a reference told that followed another; what the first one tells is of the time before, and is left out by the caller.</summary>
    public void Add(IReadOnlyList<LostSteps> told)
    {
        foreach (var axis in told)
        {
            var places = _places.TryGetValue(axis.Axis, out var known) ? known : _places[axis.Axis] = [0];
            places.Add(places[^1] + axis.Mm);
        }
    }
}

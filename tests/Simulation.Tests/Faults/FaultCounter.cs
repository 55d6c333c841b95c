namespace Simulation.Tests;

/// <summary>Counts what faults wait for.</summary>
internal sealed class FaultCounter(IReadOnlyList<Fault> faults)
{
    private readonly int[] _counts = new int[Enum.GetValues<Trigger>().Length];
    private readonly List<Fault> _waiting = [.. faults];

    public static FaultCounter None => new([]);

    /// <summary>Whether each has struck.</summary>
    public bool AllStruck => _waiting.Count == 0;

    /// <summary>One more is counted, or so many in all; gives the faults that strike now.</summary>
    public IReadOnlyList<Fault> Count(Trigger what, int? count = null)
    {
        var reached = _counts[(int)what] = count ?? _counts[(int)what] + 1;
        if (!_waiting.Exists(fault => fault.When == what && fault.At <= reached))
            return [];
        var striking = _waiting.FindAll(fault => fault.When == what && fault.At <= reached);
        _waiting.RemoveAll(striking.Contains);
        return striking;
    }
}

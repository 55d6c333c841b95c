using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>What came of one seed of a sweep: made at the first moment, the second, the third, until there is no such moment any more.</summary>
internal sealed class Swept
{
    /// <summary>The environment variable that picks out one step: SEED/AT/SWEEP.</summary>
    public const string Variable = "BRIDGE_SWEEP";

    private const int MostSteps = 5000;
    private const int MostFailures = 3;

    private readonly List<string> _failures = [];

    private Swept()
    {
    }

    /// <summary>Runs that were made.</summary>
    public int Runs { get; private set; }

    /// <summary>What failed, each with the command that plays it again.</summary>
    public IReadOnlyList<string> Failures => _failures;

    /// <summary>Fails where the variable picks out a step that no sweep has: nothing would be made, and that would look like success.</summary>
    public static void MustBeOneOf(IEnumerable<Sweep> all) => Assert.True(Environment.GetEnvironmentVariable(Variable)?.Split('/') is not { } parts
        || (parts is [var seed, _, var of] && all.Any(sweep => sweep.ToString() == of && sweep.Seeds.Contains(int.Parse(seed)))), $"{Variable}: no such step.");

    /// <summary>The step that the variable picks out of a seed: null for all, 0 for none.</summary>
    public static int? Asked(Sweep sweep, int seed) => Environment.GetEnvironmentVariable(Variable)?.Split('/') is not { } parts ? null
        : parts is [var asked, var at, var of] && of == sweep.ToString() && int.Parse(asked) == seed ? int.Parse(at) : 0;

    /// <summary>Makes a seed of a sweep, or one step of it.</summary>
    public static Swept Of(Sweep sweep, int seed, int? only = null)
    {
        var swept = new Swept();
        if (only is { } at)
            swept.Make(sweep, seed, at);
        else
            swept.MakeAll(sweep, seed);
        return swept;
    }

    private void MakeAll(Sweep sweep, int seed)
    {
        var at = sweep.First;
        while (at < MostSteps && _failures.Count < MostFailures && Make(sweep, seed, at))
            at += sweep.Stride;
        if (at == sweep.First && _failures.Count == 0)
            _failures.Add($"{sweep} of seed {seed}: the fault never struck");
        if (at >= MostSteps)
            _failures.Add($"{sweep} of seed {seed}: it still strikes at {at}, and the sweep's end is not reached");
    }

    // True if the fault struck.
    private bool Make(Sweep sweep, int seed, int at)
    {
        var run = sweep.At(at, seed);
        var failure = run.Make();
        var hasStruck = run.Struck.Contains(sweep.Attempt);
        if (failure is null && hasStruck && sweep.LeavesNoTrace && (run.Attempts > 1 || run.Causes.Overlaps([StateCause.LineSilent, StateCause.HostRestarted])))
            failure = "the run did not go on as if nothing had been";
        if (failure is not null)
            _failures.Add(Retold.Of($"{sweep} at {at}", failure, Variable, $"{seed}/{at}/{sweep}", nameof(SweepTests), sweep.At(at, seed)));
        Runs++;
        return hasStruck || failure is not null;
    }
}

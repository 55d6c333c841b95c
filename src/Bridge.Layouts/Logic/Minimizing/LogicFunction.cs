using System.Collections;

namespace Bridge.Layouts;

/// <summary>A function of some inputs: where it is 1, and where nobody cares.</summary>
public sealed class LogicFunction
{
    /// <summary>The most inputs that a function may have: 12.</summary>
    public const int MostInputs = 12;

    private readonly BitArray _ones;
    private readonly BitArray _free;

    /// <summary>A function of up to 12 inputs, by what it is for each combination of them: 1, 0, or null where nobody cares.</summary>
    public LogicFunction(int inputs, Func<int, bool?> value)
    {
        if (inputs is < 1 or > MostInputs)
            throw new ArgumentOutOfRangeException(nameof(inputs), inputs, $"1 to {MostInputs} inputs.");
        (Inputs, _ones, _free) = (inputs, new BitArray(1 << inputs), new BitArray(1 << inputs));
        for (var minterm = 0; minterm < 1 << inputs; minterm++)
            (_ones[minterm], _free[minterm]) = (value(minterm) == true, value(minterm) is null);
    }

    /// <summary>How many inputs it has.</summary>
    public int Inputs { get; }

    /// <summary>What it is for a combination of inputs: 1, 0, or null where nobody cares.</summary>
    public bool? this[int minterm] => _free[minterm] ? null : _ones[minterm];

    /// <summary>The combinations for which it must be 1.</summary>
    public IEnumerable<int> Minterms => Enumerable.Range(0, 1 << Inputs).Where(minterm => _ones[minterm]);
}

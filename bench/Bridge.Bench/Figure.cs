using System.Diagnostics;
using System.Globalization;

namespace Bridge.Bench;

/// <summary>One measured figure against its goal: the median of several samples, all in one unit.</summary>
internal sealed record Figure(string Name, string Unit, Goal Goal, IReadOnlyList<double> Samples)
{
    public double Median
    {
        get
        {
            double[] sorted = [.. Samples.Order()];
            return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
        }
    }

    public bool IsMet => Goal.IsMet(Median);

    /// <summary>Seconds of some repetitions of an action, after one that is not counted.</summary>
    public static Figure OfSeconds(string name, Goal goal, int repetitions, Action action)
    {
        action();
        return new Figure(name, "s", goal, [.. Enumerable.Range(0, repetitions).Select(_ => Seconds(action))]);
    }

    public static double Seconds(Action action)
    {
        var start = Stopwatch.GetTimestamp();
        action();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Name,-26} {Median,8:0.00} {Unit,-15} {Samples.Min():0.00} to {Samples.Max():0.00} in {Samples.Count}"
        + $"   goal {Goal} {Unit}   {(IsMet ? "pass" : "FAIL")}");
}

/// <summary>A bound that a figure must keep: below it or at least it.</summary>
internal readonly record struct Goal(double Bound, bool IsLeast)
{
    public static Goal Below(double bound) => new(bound, IsLeast: false);

    public static Goal AtLeast(double bound) => new(bound, IsLeast: true);

    public bool IsMet(double value) => IsLeast ? value >= Bound : value < Bound;

    public override string ToString() => FormattableString.Invariant($"{(IsLeast ? "at least" : "below")} {Bound}");
}

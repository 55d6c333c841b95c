using System.Globalization;

namespace Panel.Bench;

/// <summary>One figure of the panel against its goal, with the least and the most of all that were measured.</summary>
internal sealed record Figure(string Name, double Value, string Unit, double Goal, double Least, double Most, bool IsLeast = false, string Note = "")
{
    public bool IsMet => IsLeast ? Value >= Goal : Value <= Goal;

    /// <summary>A value below which so large a part of all values lies.</summary>
    public static double Quantile(IEnumerable<double> values, double part)
    {
        var sorted = values.Order().ToList();
        return sorted[Math.Min(sorted.Count - 1, (int)(part * sorted.Count))];
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Name,-40} {Value,8:0.#} {Unit,-5} {Least,8:0.#} to {Most,-8:0.#} goal {(IsLeast ? ">=" : "<=")} {Goal,-6:0.#} {(IsMet ? "pass" : "FAIL")}  {Note}");
}

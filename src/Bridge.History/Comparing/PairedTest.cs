using Bridge.Motion;
using MathNet.Numerics.Distributions;

namespace Bridge.History;

/// <summary>
/// The paired t test (NIST/SEMATECH e-Handbook of Statistical Methods, 7.3.1.1, analysis of paired observations): whether the mean of differences is
/// further from zero than their scatter explains.
/// </summary>
/// <param name="Pairs">How many differences there are.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Deviation">Their sample standard deviation.</param>
/// <param name="T">The mean in units of its own standard deviation; infinite where nothing scatters and the mean is not zero.</param>
/// <param name="Chance">How likely a mean so far from zero is where there is no difference, 0 to 1: the two-sided p-value.</param>
public sealed record PairedTest(int Pairs, double Mean, double Deviation, double T, double Chance)
{
    /// <summary>Below this chance a difference counts as more than noise: 5 %, as is common practice.</summary>
    public const double Level = 0.05;

    /// <summary>Whether the difference is more than noise.</summary>
    public bool IsMoreThanNoise => Chance < Level;

    /// <summary>Of two differences or more.</summary>
    /// <exception cref="Bridge.Jobs.RefusedException">There are fewer.</exception>
    public static PairedTest Of(IReadOnlyList<double> differences)
    {
        var spread = Spread.Of(differences);
        var t = spread.Mean == 0 ? 0 : spread.Mean / spread.OfMean;
        var chance = double.IsFinite(t) ? 2 * StudentT.CDF(0, 1, spread.Count - 1, -Math.Abs(t)) : 0;
        return new PairedTest(spread.Count, spread.Mean, spread.Deviation, t, chance);
    }
}

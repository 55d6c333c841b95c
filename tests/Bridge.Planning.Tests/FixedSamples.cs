using CsCheck;

namespace Bridge.Planning.Tests;

/// <summary>The same samples at every run, for a test of how often or how much; what holds for each sample alone is tested on new ones each time.</summary>
internal static class FixedSamples
{
    public static IEnumerable<T> Of<T>(Gen<T> samples, int count)
    {
        var random = new PCG(stream: 1, seed: 1);
        return Enumerable.Range(0, count).Select(_ => samples.Generate(random, null, out var _));
    }
}

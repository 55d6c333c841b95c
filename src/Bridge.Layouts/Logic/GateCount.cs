namespace Bridge.Layouts;

/// <summary>Gates that some sums of products take; what several of them need is there once.</summary>
/// <param name="Not">Inverters of inputs.</param>
/// <param name="And">AND gates of any number of inputs.</param>
/// <param name="Or">OR gates of any number of inputs.</param>
/// <param name="Nand">NAND gates of any number of inputs where nothing else is used, an inverter being one too.</param>
/// <param name="Nand2">NAND gates of two inputs where nothing else is used, an inverter being one too.</param>
public readonly record struct GateCount(int Not, int And, int Or, int Nand, int Nand2)
{
    /// <summary>Counts them.</summary>
    public static GateCount Of(IReadOnlyList<SumOfProducts> sums)
    {
        var needed = sums.Where(sum => sum.Products.Any(product => product.Literals(sum.Inputs) > 0)).ToList();
        var products = needed.SelectMany(sum => sum.Products.Select(product => (sum.Inputs, product))).Distinct().ToList();
        var wide = products.Where(pair => pair.product.Literals(pair.Inputs) > 1).Select(pair => pair.product.Literals(pair.Inputs)).ToList();
        var ors = needed.Where(sum => sum.Products.Count > 1).Select(sum => sum.Products.Count).ToList();

        // In a NAND circuit a product alone is inverted once more, and a single literal in a sum arrives inverted.
        var lone = needed.Count(sum => sum.Products.Count == 1 && sum.Products[0].Literals(sum.Inputs) > 1);
        var inverted = needed.SelectMany(Inverted).Distinct().Count();
        return new GateCount(needed.SelectMany(Complements).Distinct().Count(), wide.Count, ors.Count, wide.Count + ors.Count + lone + inverted,
            wide.Sum(OfTwo) + ors.Sum(OfTwo) + lone + inverted);
    }

    // A NAND of k inputs out of those of two: each input beyond the second takes an AND, which is two of them.
    private static int OfTwo(int inputs) => 2 * inputs - 3;

    private static IEnumerable<int> Complements(SumOfProducts sum) =>
        sum.Products.SelectMany(product => Inputs(sum).Where(input => (product.Free >> input & 1) == 0 && (product.Value >> input & 1) == 0));

    // An input that is wanted inverted: in a product of several its complement, alone in a sum of several the literal's own, alone by itself a complement.
    private static IEnumerable<int> Inverted(SumOfProducts sum) => sum.Products.SelectMany(product => Inputs(sum).Where(input =>
        (product.Free >> input & 1) == 0
        && (product.Value >> input & 1) == (product.Literals(sum.Inputs) == 1 && sum.Products.Count > 1 ? 1 : 0)));

    private static IEnumerable<int> Inputs(SumOfProducts sum) => Enumerable.Range(0, sum.Inputs);
}

namespace Bridge.Layouts;

/// <summary>A function as a sum of products.</summary>
/// <param name="Inputs">How many inputs it has.</param>
/// <param name="Products">The products; none where it is always 0.</param>
/// <param name="IsLeast">Whether none has fewer products, nor as many with fewer literals.</param>
public sealed record SumOfProducts(int Inputs, IReadOnlyList<Implicant> Products, bool IsLeast)
{
    /// <summary>Literals of all products together.</summary>
    public int Literals => Products.Sum(product => product.Literals(Inputs));

    /// <summary>What it is for a combination of inputs.</summary>
    public bool At(int minterm) => Products.Any(product => product.Covers(minterm));

    /// <summary>The least sum of a function of up to 12 inputs.</summary>
    public static SumOfProducts Least(LogicFunction function) => Cover.Least(function, PrimeImplicants.Of(function));

    /// <summary>It in letters: names of the inputs, the highest first, ' for not; 1 and 0 where it is always that.</summary>
    public string In(IReadOnlyList<string> names) => Products.Count == 0 ? "0"
        : Products.Any(product => product.Literals(Inputs) == 0) ? "1"
        : string.Join(" + ", Products.Select(product => string.Join(' ', Enumerable.Range(0, Inputs).Reverse()
            .Where(input => (product.Free >> input & 1) == 0).Select(input => names[input] + ((product.Value >> input & 1) == 1 ? "" : "'")))));
}

using CsCheck;

namespace Bridge.Layouts.Tests;

public class SumOfProductsTests
{
    private static readonly string[] Names = ["D", "C", "B", "A"];

    // A common textbook example (from memory; solved by hand and by program): primes -100, 10--, 1--0, 1-1-, and two least covers.
    [Fact]
    public void The_textbook_example_with_two_free_terms_has_its_primes_and_its_least_cover()
    {
        var function = Of([4, 8, 10, 11, 12, 15], [9, 14]);
        Assert.Equal(
            [new Implicant(0b0100, 0b1000), new Implicant(0b1000, 0b0011), new Implicant(0b1000, 0b0110), new Implicant(0b1010, 0b0101)],
            PrimeImplicants.Of(function).OrderBy(prime => prime.Value).ThenBy(prime => prime.Free));
        Assert.Contains(SumOfProducts.Least(function).In(Names), new[] { "B C' D' + A C + A B'", "A C + A B' + B C' D'", "A B' + A C + B C' D'",
            "B C' D' + A B' + A C", "A D' + A C + B C' D'", "B C' D' + A D' + A C", "B C' D' + A C + A D'", "A C + A D' + B C' D'" });
    }

    // A second textbook example, with one answer (a secondary source prints it).
    [Fact]
    public void The_second_textbook_example_is_two_products()
    {
        var sum = SumOfProducts.Least(Of([0, 1, 3, 7, 8, 9, 11, 15], []));
        Assert.Equal(["B' C'", "C D"], sum.In(Names).Split(" + ").Order());
        Assert.True(sum.IsLeast);
    }

    // The cyclic example of Petrick's method (common practice): no prime is essential, and three of six do.
    [Fact]
    public void A_cyclic_function_takes_three_of_its_six_primes()
    {
        var function = new LogicFunction(3, minterm => minterm is not (3 or 4));
        Assert.Equal(6, PrimeImplicants.Of(function).Count);
        Assert.Equal((3, 6, true),
            (SumOfProducts.Least(function).Products.Count, SumOfProducts.Least(function).Literals, SumOfProducts.Least(function).IsLeast));
    }

    [Fact]
    public void What_is_always_one_or_zero_says_so()
    {
        Assert.Equal("1", SumOfProducts.Least(new LogicFunction(2, minterm => minterm == 1 ? null : true)).In(["b", "a"]));
        Assert.Equal("0", SumOfProducts.Least(new LogicFunction(2, minterm => minterm == 1 ? null : false)).In(["b", "a"]));
    }

    [Fact]
    public void A_random_function_of_four_inputs_has_no_smaller_sum() => Gen.Int[0, 2].Array[16].Sample(values =>
    {
        var function = new LogicFunction(4, minterm => values[minterm] == 2 ? null : values[minterm] == 1);
        var sum = SumOfProducts.Least(function);
        Assert.All(Enumerable.Range(0, 16), minterm => Assert.True(function[minterm] is null || function[minterm] == sum.At(minterm)));
        Assert.True(sum.IsLeast);
        Assert.False(sum.Products.Count > 0 && HasCover(function, sum.Products.Count - 1, function.Minterms.ToList()));
    }, iter: 300);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_random_function_of_eight_inputs_is_met(int seed)
    {
        var random = new Random(seed);
        var function = new LogicFunction(8, _ => random.Next(4) switch { 0 => true, 1 => null, _ => false });
        var sum = SumOfProducts.Least(function);
        Assert.All(Enumerable.Range(0, 256), minterm => Assert.True(function[minterm] is null || function[minterm] == sum.At(minterm)));
    }

    // Every product of four inputs there is, tried in every choice of so many.
    private static bool HasCover(LogicFunction function, int products, List<int> open)
    {
        if (open.Count == 0)
            return true;
        return products > 0
            && All(4)
                .Where(product => product.Covers(open[0]) && Enumerable.Range(0, 16).All(minterm => !product.Covers(minterm) || function[minterm] != false))
            .Any(product => HasCover(function, products - 1, open.Where(minterm => !product.Covers(minterm)).ToList()));
    }

    private static IEnumerable<Implicant> All(int inputs) =>
        from free in Enumerable.Range(0, 1 << inputs) from value in Enumerable.Range(0, 1 << inputs) where (value & free) == 0 select new Implicant(value,
            free);

    private static LogicFunction Of(int[] ones, int[] free) => new(4, minterm => free.Contains(minterm) ? null : ones.Contains(minterm));
}

using System.Numerics;

namespace Bridge.Layouts;

/// <summary>
/// Chooses prime implicants that cover all minterms: those that alone cover one first, then what is dominated goes out, and of what remains Petrick's
/// method (Air Force Cambridge Research Center, TR-56-110, 1956; from memory) multiplies the choices out: fewest products, then fewest literals.
/// </summary>
internal static class Cover
{
    private const int MostTerms = 500; // of Petrick's product at any time
    private const int MostPrimes = 64;

    public static SumOfProducts Least(LogicFunction function, IReadOnlyList<Implicant> primes)
    {
        var chosen = new List<Implicant>();
        var open = primes.ToList();
        var minterms = function.Minterms.ToList();
        while (true)
        {
            if (Essential(open, minterms) is { } essential)
            {
                chosen.Add(essential);
                open.Remove(essential);
                minterms.RemoveAll(essential.Covers);
            }
            else if (!Reduced(ref open, ref minterms, function.Inputs))
            {
                break;
            }
        }
        var isLeast = Petrick(open, minterms, function.Inputs, chosen);
        return new SumOfProducts(function.Inputs, [.. chosen.OrderBy(prime => prime.Free).ThenByDescending(prime => prime.Value)], isLeast);
    }

    private static Implicant? Essential(List<Implicant> open, List<int> minterms)
    {
        foreach (var minterm in minterms)
            if (open.Where(prime => prime.Covers(minterm)).Take(2).ToList() is [var only])
                return only;
        return null;
    }

    // A minterm that is covered whenever another one is goes out; so does a prime that another, no dearer one can stand for.
    private static bool Reduced(ref List<Implicant> open, ref List<int> minterms, int inputs)
    {
        var (primes, terms) = (open, minterms);
        var rows = terms.Select(minterm => primes.Where(prime => prime.Covers(minterm)).ToHashSet()).ToList();
        var keptTerms = terms.Where((_, at) =>
            !rows.Where((row, other) => other != at && row.IsSubsetOf(rows[at]) && (row.Count < rows[at].Count || other < at)).Any()).ToList();
        var columns = primes.Select(prime => keptTerms.Where(prime.Covers).ToHashSet()).ToList();
        var keptPrimes = primes.Where((prime, at) => columns[at].Count > 0 && !columns.Where((column, other) => other != at && columns[at].IsSubsetOf(column)
            && prime.Literals(inputs) >= primes[other].Literals(inputs)
            && (columns[at].Count < column.Count || prime.Literals(inputs) > primes[other].Literals(inputs) || other < at)).Any()).ToList();
        var isSmaller = keptTerms.Count < terms.Count || keptPrimes.Count < primes.Count;
        (open, minterms) = (keptPrimes, keptTerms);
        return isSmaller;
    }

    // Each minterm is a sum of the primes that cover it; a term of their product is a cover. What a smaller term is part of goes out.
    private static bool Petrick(List<Implicant> open, List<int> minterms, int inputs, List<Implicant> chosen)
    {
        if (minterms.Count == 0)
            return true;
        var isLeast = open.Count <= MostPrimes;
        var primes = open.Take(MostPrimes).ToList();
        var terms = new List<ulong> { 0 };
        foreach (var minterm in minterms)
        {
            var choices = Enumerable.Range(0, primes.Count).Where(prime => primes[prime].Covers(minterm)).Select(prime => 1UL << prime).ToList();
            if (choices.Count == 0)
                return Greedily(open, minterms, chosen);
            terms = Absorbed(terms.SelectMany(term => choices.Any(choice => (term & choice) != 0) ? [term] : choices.Select(choice => term | choice)));
            isLeast &= terms.Count <= MostTerms;
            terms = [.. terms.Take(MostTerms)];
        }
        var best = terms.OrderBy(term => BitOperations.PopCount(term)).ThenBy(Literals).ThenBy(term => term).First();
        chosen.AddRange(primes.Where((_, prime) => (best >> prime & 1) == 1));
        return isLeast;

        int Literals(ulong term) => primes.Where((_, prime) => (term >> prime & 1) == 1).Sum(prime => prime.Literals(inputs));
    }

    private static List<ulong> Absorbed(IEnumerable<ulong> terms)
    {
        var kept = new List<ulong>();
        foreach (var term in terms.Distinct().OrderBy(term => BitOperations.PopCount(term)))
            if (kept.Count > MostTerms || !kept.Exists(smaller => (smaller & term) == smaller))
                kept.Add(term);
        return kept;
    }

    private static bool Greedily(List<Implicant> open, List<int> minterms, List<Implicant> chosen)
    {
        var left = minterms.ToList();
        while (left.Count > 0)
        {
            var best = open.MaxBy(prime => left.Count(prime.Covers));
            chosen.Add(best);
            left.RemoveAll(best.Covers);
        }
        return false;
    }
}

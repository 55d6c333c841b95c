using System.Collections;
using System.Numerics;

namespace Bridge.Layouts;

/// <summary>
/// The prime implicants of a function, by the tabular method of Quine (American Mathematical Monthly 59, 1952) and McCluskey (Bell System Technical
/// Journal 35, 1956): two products that differ in one literal become one without it, and what becomes no other is prime.
/// </summary>
internal static class PrimeImplicants
{
    /// <summary>All of them that cover a minterm.</summary>
    public static List<Implicant> Of(LogicFunction function)
    {
        var size = 1 << function.Inputs;
        var holds = new BitArray[size]; // by the free inputs, then by the values of the others
        holds[0] = new BitArray(size);
        for (var minterm = 0; minterm < size; minterm++)
            holds[0][minterm] = function[minterm] != false;
        for (var free = 1; free < size; free++)
        {
            var bit = 1 << BitOperations.TrailingZeroCount(free);
            var narrower = holds[free ^ bit];
            var wider = holds[free] = new BitArray(size);
            for (var value = 0; value < size; value++)
                if ((value & free) == 0)
                    wider[value] = narrower[value] && narrower[value | bit];
        }
        var primes = new List<Implicant>();
        for (var free = size - 1; free >= 0; free--)
            for (var value = 0; value < size; value++)
                if ((value & free) == 0 && holds[free][value] && IsPrime(holds, function.Inputs, value, free) && CoversOne(function, value, free))
                    primes.Add(new Implicant(value, free));
        return primes;
    }

    private static bool IsPrime(BitArray[] holds, int inputs, int value, int free)
    {
        for (var bit = 1; bit < 1 << inputs; bit <<= 1)
            if ((free & bit) == 0 && holds[free | bit][value & ~bit])
                return false;
        return true;
    }

    private static bool CoversOne(LogicFunction function, int value, int free)
    {
        for (var rest = free; ; rest = (rest - 1) & free)
        {
            if (function[value | rest] == true)
                return true;
            if (rest == 0)
                return false;
        }
    }
}

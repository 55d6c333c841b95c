namespace Fuzz.Tests;

/// <summary>A reader of input, with examples of what it reads and what must be true of whatever it is given.</summary>
internal abstract class FuzzTarget
{
    /// <summary>Good and bad input to start from.</summary>
    protected abstract IReadOnlyList<byte[]> Corpus { get; }

    /// <summary>Words of its language.</summary>
    protected virtual IReadOnlyList<byte[]> Words => [];

    /// <summary>The input that a seed stands for.</summary>
    public byte[] InputOf(int seed)
    {
        var random = new Random(seed);
        var input = new Mutation(random, Corpus, Words).Make();
        return random.Next(2) == 0 ? input : Seal(input, random);
    }

    /// <summary>Throws if anything is wrong with what becomes of an input; a refusal in words is not. True if it was read.</summary>
    public abstract bool Check(byte[] input);

    /// <summary>Sets right what would keep damaged input from being looked at: lengths and check sequences.</summary>
    protected virtual byte[] Seal(byte[] input, Random random) => input;
}

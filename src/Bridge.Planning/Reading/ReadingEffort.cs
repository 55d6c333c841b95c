using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Holds the work that a drawing or a mesh makes to a bound.</summary>
/// <param name="name">What a refusal calls it.</param>
internal sealed class ReadingEffort(string name)
{
    private const long Most = 1_000_000_000; // points and cells looked at: some seconds of work

    private long _spent;

    /// <summary>Counts so many points or cells.</summary>
    /// <exception cref="RefusedException">That is too much.</exception>
    public void Spend(long steps)
    {
        _spent += steps;
        if (_spent > Most)
            throw new RefusedException(name, "more lines, areas or triangles than can be turned into cells in reasonable time",
                $"up to {Most} points and cells in all",
                "Make it simpler or smaller.");
    }
}

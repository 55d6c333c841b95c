namespace Simulation.Tests;

/// <summary>A failure as a person reads it: what was seen, the command that plays it again, and the last moments before it.</summary>
internal static class Retold
{
    private const int Moments = 40;

    /// <summary>Of a whole run, which is made once more for it.</summary>
    /// <param name="what">What failed.</param>
    /// <param name="failure">What was seen.</param>
    /// <param name="variable">The environment variable that picks it out.</param>
    /// <param name="value">The variable's value.</param>
    /// <param name="tests">The class that it is a test of.</param>
    /// <param name="again">The same run, not made yet; null where its story cannot be told.</param>
    public static string Of(string what, string failure, string variable, string value, string tests, WholeRun? again = null)
    {
        var story = new List<string>();
        again?.Make(story);
        return $"{what}: {failure}\nAgain: {variable}='{value}' dotnet test tests/Simulation.Tests -c Release --filter {tests}\n"
            + string.Join('\n', story.TakeLast(Moments));
    }
}

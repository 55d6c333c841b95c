using System.CommandLine;

namespace Bridge.Cli;

/// <summary>The command or option that was most likely meant by a word that is none.</summary>
internal static class NearWord
{
    private const int MostChanges = 2;

    /// <summary>The nearest, within two letters that are wrong, missing, too many or exchanged; null where none is that near.</summary>
    public static string? To(string word, Command command)
    {
        var names = command.Subcommands.Where(sub => !sub.Hidden).Select(sub => sub.Name).Concat(command.Options.Select(option => option.Name));
        var near = names.Select(name => (Name: name, Changes: Changes(word, name))).OrderBy(each => each.Changes).FirstOrDefault();
        return near.Name is not null && near.Changes <= Math.Min(MostChanges, word.TrimStart('-').Length / 2) ? near.Name : null;
    }

    // The distance of Damerau and Levenshtein, in which no letters are changed twice; names are short.
    private static int Changes(string one, string other)
    {
        var costs = new int[one.Length + 1, other.Length + 1];
        for (var i = 0; i <= one.Length; i++)
            for (var j = 0; j <= other.Length; j++)
                costs[i, j] = Math.Min(i, j) == 0 ? Math.Max(i, j) : Cost(i, j);
        return costs[one.Length, other.Length];

        int Cost(int i, int j)
        {
            var isSame = one[i - 1] == other[j - 1];
            var least = Math.Min(Math.Min(costs[i - 1, j], costs[i, j - 1]) + 1, costs[i - 1, j - 1] + (isSame ? 0 : 1));
            var isExchanged = i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1];
            return isExchanged ? Math.Min(least, costs[i - 2, j - 2] + 1) : least;
        }
    }
}

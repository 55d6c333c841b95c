namespace Bridge.Jobs;

/// <summary>Finds the word that was meant.</summary>
internal static class MachineFileSpelling
{
    private const int LongestWord = 64;

    /// <summary>The nearest of the known words; null where none is close: at most one letter in three wrong.</summary>
    public static string? Nearest(string word, IEnumerable<string> known)
    {
        if (word.Length > LongestWord) return null;

        var (nearest, distance) = known.Select(k => (k, Distance(word, k))).MinBy(pair => pair.Item2);
        return nearest is not null && 3 * distance <= Math.Max(word.Length, nearest.Length) ? nearest : null;
    }

    // Levenshtein's distance (1965), one row at a time.
    private static int Distance(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = diagonal + (char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(change, 1 + Math.Min(row[j], row[j - 1]));
            }
        }

        return row[^1];
    }
}

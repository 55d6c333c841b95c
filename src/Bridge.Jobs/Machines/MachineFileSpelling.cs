namespace Bridge.Jobs;

/// <summary>Finds the word that was meant.</summary>
internal static class MachineFileSpelling
{
    private const int LongestWord = 64;

    /// <summary>The nearest of the known words: one that only lacks its unit, or has at most one letter in three wrong; null where none is.</summary>
    public static string? Nearest(string word, IReadOnlyCollection<string> known)
    {
        if (word.Length > LongestWord) return null;
        if (known.FirstOrDefault(k => k.StartsWith($"{word}_", StringComparison.Ordinal)) is { } whole) return whole;

        var (nearest, distance) = known.Select(k => (k, Distance(word, k))).MinBy(pair => pair.Item2);
        return nearest is not null && 3 * distance <= Math.Max(word.Length, nearest.Length) ? nearest : null;
    }

    // Levenshtein's distance (1965) with Damerau's exchange of neighbours (1964): insert, drop, change or exchange a letter, each once.
    private static int Distance(string a, string b)
    {
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++) d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++) d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
        for (var j = 1; j <= b.Length; j++)
        {
            var change = d[i - 1, j - 1] + (Same(a[i - 1], b[j - 1]) ? 0 : 1);
            d[i, j] = Math.Min(change, 1 + Math.Min(d[i - 1, j], d[i, j - 1]));
            if (i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1])) d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
        }

        return d[a.Length, b.Length];
    }

    private static bool Same(char a, char b) => char.ToLowerInvariant(a) == char.ToLowerInvariant(b);
}

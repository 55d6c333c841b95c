namespace Bridge.Jobs;

/// <summary>Finds the word that was meant.</summary>
internal static class MachineFileSpelling
{
    private const int LongestWord = 64;

    /// <summary>The known word that was meant: only its unit lacks, or at most one letter in three is wrong; else null.</summary>
    public static string? Nearest(string word, IReadOnlyCollection<string> known)
    {
        if (word.Length > LongestWord || known.Count == 0) return null;
        if (known.FirstOrDefault(k => k.StartsWith($"{word}_", StringComparison.Ordinal)) is { } whole) return whole;

        var (nearest, distance) = known.Select(k => (k, Distance(word, k))).MinBy(pair => pair.Item2);
        return 3 * distance <= Math.Max(word.Length, nearest.Length) ? nearest : null;
    }

    // Levenshtein's distance (1965) with Damerau's exchange of neighbours (1964): each insertion, loss, change or exchange is 1.
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
            var exchanged = i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1]);
            if (exchanged) d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
        }

        return d[a.Length, b.Length];
    }

    private static bool Same(char a, char b) => char.ToLowerInvariant(a) == char.ToLowerInvariant(b);
}

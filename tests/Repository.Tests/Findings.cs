namespace Repository.Tests;

/// <summary>What a rule found wrong, place by place.</summary>
internal static class Findings
{
    /// <summary>Fails with all of them, one a line.</summary>
    public static void AssertNone(IEnumerable<string> findings)
    {
        var all = findings.ToList();
        Assert.True(all.Count == 0, string.Join('\n', all));
    }
}

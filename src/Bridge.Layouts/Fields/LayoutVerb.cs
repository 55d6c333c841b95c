namespace Bridge.Layouts;

/// <summary>One verb of a layout: which records are its own, and where they hold what.</summary>
/// <param name="Name">What the layout calls it.</param>
/// <param name="Act">What it does.</param>
/// <param name="Fixed">The bits that are the same in all its records: those that name it, and those it does not use.</param>
/// <param name="Bits">What they are.</param>
/// <param name="Named">Those of them that name it.</param>
/// <param name="Sources">Where it finds its numbers.</param>
public sealed record LayoutVerb(string Name, LayoutAct Act, ulong Fixed, ulong Bits, ulong Named, IReadOnlyDictionary<LayoutRole, LayoutSource> Sources)
{
    /// <summary>Whether a record is one of this verb.</summary>
    public bool Owns(ulong word) => (word & Fixed) == Bits;

    /// <summary>Whether a record of it says something of a role.</summary>
    public bool Has(LayoutRole role) => Sources.ContainsKey(role);

    /// <summary>What a record says of a role, or what holds where it says nothing.</summary>
    public int Read(LayoutRole role, ulong word, int absent = 0) => Sources.TryGetValue(role, out var source) ? source.Read(word) : absent;
}

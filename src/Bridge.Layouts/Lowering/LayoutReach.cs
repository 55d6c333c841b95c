namespace Bridge.Layouts;

/// <summary>How far one record of a relative layout goes along an axis.</summary>
/// <param name="Least">The furthest down, 0 and below.</param>
/// <param name="Most">The furthest up, 0 and above.</param>
internal readonly record struct LayoutReach(int Least, int Most)
{
    public bool Holds(int distance) => distance >= Least && distance <= Most;

    public int Nearest(int distance) => Math.Clamp(distance, Least, Most);

    public static LayoutReach Of(Layout layout, LayoutVerb verb, LayoutRole role, LayoutRole sign)
    {
        if (!verb.Sources.TryGetValue(role, out var source) || source.Always is not null)
            return default;
        if (!layout.IsRelative)
            return new LayoutReach(-source.Largest, source.Largest);
        if (!LayoutNumbers.HasSign(verb, sign))
            return new LayoutReach(-source.Largest / 2 - 1, source.Largest / 2);
        return verb.Sources[sign].Always switch
        {
            0 => new LayoutReach(0, source.Largest),
            not null => new LayoutReach(-source.Largest, 0),
            _ => new LayoutReach(-source.Largest, source.Largest),
        };
    }
}

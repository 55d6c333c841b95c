using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>What the numbers of a record come to: places, counts, directions.</summary>
internal static class LayoutNumbers
{
    /// <summary>A count, 0 and up: cells, records, times.</summary>
    public static int Count(this Layout layout, LayoutVerb verb, LayoutRole role, ulong word, int absent = 1) =>
        !verb.Sources.TryGetValue(role, out var source) ? absent : source.Always ?? source.Read(word) + layout.CountsFrom;

    /// <summary>The largest count that a record of a verb can say.</summary>
    public static int Most(this Layout layout, LayoutVerb verb, LayoutRole role) =>
        !verb.Sources.TryGetValue(role, out var source) ? 1 : source.Always ?? source.Largest + layout.CountsFrom;

    /// <summary>The place that a record leads to from another; it may lie off the grid.</summary>
    public static Cell Place(this Layout layout, LayoutVerb verb, ulong word, Cell from) => new(
        Place(layout, verb, LayoutRole.X, LayoutRole.SignX, word, from.X),
        Place(layout, verb, LayoutRole.Y, LayoutRole.SignY, word, from.Y));

    /// <summary>Whether a sign bit stands beside the number of a distance; else the distance is in two's complement.</summary>
    public static bool HasSign(LayoutVerb verb, LayoutRole sign) =>
        verb.Act is LayoutAct.Go or LayoutAct.Dot or LayoutAct.Line && verb.Has(sign);

    /// <summary>Freeman's heading; null where the bits name none.</summary>
    public static int? HeadingOf(this Layout layout, LayoutVerb verb, ulong word)
    {
        if (verb.Has(LayoutRole.StepX) || verb.Has(LayoutRole.StepY))
            return HeadingOf(
                verb.Read(LayoutRole.StepX, word) * (1 - 2 * verb.Read(LayoutRole.SignX, word)),
                verb.Read(LayoutRole.StepY, word) * (1 - 2 * verb.Read(LayoutRole.SignY, word)));
        if (!verb.Sources.TryGetValue(LayoutRole.Heading, out var source))
            return 0;
        if (source.Always is { } always)
            return always;
        var (number, headings) = (source.Read(word), layout.HeadingsOf(source.Width));
        return number < headings.Count ? headings[number] : null;
    }

    /// <summary>How a rectangle is worked.</summary>
    public static PatchWay WayOf(LayoutVerb verb, ulong word) => (PatchWay)(verb.Read(LayoutRole.Way, word)
        | verb.Read(LayoutRole.AlongY, word) | verb.Read(LayoutRole.SignX, word) << 1 | verb.Read(LayoutRole.SignY, word) << 2);

    private static int? HeadingOf(int dx, int dy)
    {
        for (var heading = 0; heading < Heading.Count; heading++)
            if (Heading.Dx(heading) == dx && Heading.Dy(heading) == dy)
                return heading;
        return null;
    }

    private static int Place(Layout layout, LayoutVerb verb, LayoutRole role, LayoutRole sign, ulong word, int from)
    {
        if (!verb.Sources.TryGetValue(role, out var source))
            return from;
        var number = source.Read(word);
        if (!layout.IsRelative)
            return number;
        if (HasSign(verb, sign))
            return from + (verb.Read(sign, word) == 1 ? -number : number);
        return from + (source.Always is null && number > source.Largest / 2 ? number - source.Largest - 1 : number);
    }
}

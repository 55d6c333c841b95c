using System.Numerics;

namespace Bridge.Layouts;

/// <summary>What the fields and verbs of a layout must be to one another.</summary>
internal sealed class LayoutChecks(LayoutSettings file, Layout layout)
{
    public void Check()
    {
        file.RefuseIfAny();
        if (!layout.Doing(LayoutAct.End).Any())
            file.Refuse(file.At("verbs"), "verbs", "no end", "a verb that ends a job", "Add [verbs.end], with the bits that name it below when.");
        foreach (var verb in layout.Verbs)
        {
            CheckPlaces(verb, LayoutRole.X, layout.PositionsX);
            CheckPlaces(verb, LayoutRole.Y, layout.PositionsY);
            CheckHeadings(verb);
            CheckWays(verb);
        }
        for (var index = 0; index < layout.Verbs.Count; index++)
            foreach (var earlier in layout.Verbs.Take(index))
                CheckApart(earlier, layout.Verbs[index]);
    }

    private void CheckPlaces(LayoutVerb verb, LayoutRole role, int positions)
    {
        if (layout.IsRelative || !verb.Sources.TryGetValue(role, out var source) || source.Always is not null || source.Largest >= positions - 1)
            return;
        Refuse(verb, role, $"{source.Width} bits, which name {source.Largest + 1} places",
            $"at least {BitOperations.Log2((uint)positions - 1) + 1} bits for {positions} places (positions_{LayoutActs.NameOf(role)})",
            "Widen the field, or count fewer places.");
    }

    private void CheckHeadings(LayoutVerb verb)
    {
        if (!verb.Sources.TryGetValue(LayoutRole.Heading, out var source))
            return;
        if (source.Always is > 7)
            Refuse(verb, LayoutRole.Heading, $"{source.Always}", "0 to 7, a heading of Freeman's", "0 is +X, then counter-clockwise by 45 degrees.");
        if (source.Always is null && layout.Headings is { } headings && headings.Count > source.Largest + 1)
            Refuse(verb, LayoutRole.Heading, $"{source.Width} bits", $"enough for the {headings.Count} headings of the layout",
                "Widen the field, or list fewer headings.");
        if (verb.Has(LayoutRole.StepX) || verb.Has(LayoutRole.StepY))
            Refuse(verb, LayoutRole.Heading, "a heading beside step_x or step_y", "one of the two ways to say a direction", "Take one of the two out.");
    }

    private void CheckWays(LayoutVerb verb)
    {
        if (verb.Has(LayoutRole.Way) && (verb.Has(LayoutRole.AlongY) || verb.Has(LayoutRole.SignX) || verb.Has(LayoutRole.SignY)))
            Refuse(verb, LayoutRole.Way, "a way beside along_y, sign_x or sign_y", "one of the two ways to say how a rectangle is worked",
                "Take one of the two out.");
        if (!layout.IsRelative && verb.Act is LayoutAct.Go or LayoutAct.Dot or LayoutAct.Line && (verb.Has(LayoutRole.SignX) || verb.Has(LayoutRole.SignY)))
            Refuse(verb, verb.Has(LayoutRole.SignX) ? LayoutRole.SignX : LayoutRole.SignY, "a sign for a place that is counted from 0",
                "signs where moves = \"relative\"", "Take the line out.");
    }

    private void CheckApart(LayoutVerb earlier, LayoutVerb later)
    {
        if (((earlier.Bits ^ later.Bits) & earlier.Fixed & later.Fixed) == 0)
            file.Refuse(file.At($"verbs.{later.Name}"), $"verbs.{later.Name}", $"records that may be those of {earlier.Name} too",
                "a field that both name below when, with another number", "Tell the two apart; bits that a verb does not use are zero.");
    }

    private void Refuse(LayoutVerb verb, LayoutRole role, string found, string allowed, string action)
    {
        var (table, key) = ($"verbs.{verb.Name}", LayoutActs.NameOf(role));
        file.Refuse(file.At(table, key), $"{table}.{key}", found, allowed, action);
    }
}

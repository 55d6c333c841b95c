using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>A record of a layout in words. "Here" is where the head stands when the record is done.</summary>
public static class LayoutWords
{
    private const string Here = "here";

    /// <summary>The verb's name and what the record means, whether or not it may be done.</summary>
    public static string Meaning(Layout layout, ulong word)
    {
        if (layout.VerbOf(word) is not { } verb)
            return "none: the bits are no verb's";
        var rise = verb.Act != LayoutAct.Rise && verb.Read(LayoutRole.Rise, word) == 1 ? "up a layer, then " : "";
        var head = verb.Act != LayoutAct.Head && verb.Has(LayoutRole.Head) ? $", with head {HeadOf(verb, word)}" : "";
        return $"{verb.Name}: {rise}{Does(layout, verb, word)}{head}";
    }

    /// <summary>What a heading's name is: +X, -X+Y and so on.</summary>
    internal static string Direction(int heading) => Along(Heading.Dx(heading), 'X') + Along(Heading.Dy(heading), 'Y');

    internal static char HeadOf(LayoutVerb verb, ulong word) => RecordWords.Name((Head)verb.Read(LayoutRole.Head, word));

    private static string Does(Layout layout, LayoutVerb verb, ulong word)
    {
        var place = Place(layout, verb, word);
        var at = place == Here ? Here : $"at {place}";
        return verb.Act switch
        {
            LayoutAct.End => "the job is complete",
            LayoutAct.Go => $"go to {place}",
            LayoutAct.Base => "go to (0, 0)",
            LayoutAct.Step => $"go {Counted(LayoutRole.Count, "cell")} {Toward(layout, verb, word)}",
            LayoutAct.Dot => $"work the cell {at}",
            LayoutAct.Row => $"work {Counted(LayoutRole.Count, "cell")} {Toward(layout, verb, word)}, the first {at}",
            LayoutAct.Patch => Rectangle(LayoutRole.SizeX, LayoutRole.SizeY),
            LayoutAct.Square => Rectangle(LayoutRole.Size, LayoutRole.Size),
            LayoutAct.Line => $"work in a straight line to {place}",
            LayoutAct.Again => $"the last {Counted(LayoutRole.Reach, "record")}, {Counted(LayoutRole.Times, "more time")}",
            LayoutAct.Rise => "up a layer",
            LayoutAct.Head => $"take head {HeadOf(verb, word)}",
            LayoutAct.Wait => FormattableString.Invariant($"wait {verb.Read(LayoutRole.Tenths, word) / 10.0:0.0} s"),
            LayoutAct.Hold => "wait until the operator goes on",
            _ => throw new UnreachableException(),
        };

        string Counted(LayoutRole role, string what) => layout.Count(verb, role, word) is var count && count == 1 ? $"1 {what}" : $"{count} {what}s";

        string Rectangle(LayoutRole along, LayoutRole up) => $"work {layout.Count(verb, along, word)} x {layout.Count(verb, up, word)} cells "
            + $"from the corner {at}, {Way(LayoutNumbers.WayOf(verb, word))}";
    }

    private static string Place(Layout layout, LayoutVerb verb, ulong word)
    {
        var (hasX, hasY, to) = (verb.Has(LayoutRole.X), verb.Has(LayoutRole.Y), layout.Place(verb, word, default));
        return !hasX && !hasY ? Here
            : layout.IsRelative ? FormattableString.Invariant($"({to.X:+0;-0;0}, {to.Y:+0;-0;0}) from here")
            : !hasY ? $"x = {to.X}" : !hasX ? $"y = {to.Y}" : $"{to}";
    }

    private static string Toward(Layout layout, LayoutVerb verb, ulong word) =>
        layout.HeadingOf(verb, word) is { } heading ? $"along {Direction(heading)}" : "along no heading";

    private static string Way(PatchWay way) => (way.HasFlag(PatchWay.AlongY) ? "along Y first" : "along X first")
        + (way.HasFlag(PatchWay.XFalls) ? ", X falling" : ", X growing") + (way.HasFlag(PatchWay.YFalls) ? ", Y falling" : ", Y growing");

    private static string Along(int step, char axis) => step switch { > 0 => $"+{axis}", < 0 => $"-{axis}", _ => "" };
}

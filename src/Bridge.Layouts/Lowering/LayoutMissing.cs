using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Says what a layout lacks first where it cannot say a record.</summary>
internal static class LayoutMissing
{
    /// <summary>The refusal.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="wanted">The ordinary record that it should say.</param>
    /// <param name="pass">What that does.</param>
    public static Refusal Of(Layout layout, string wanted, Pass pass)
    {
        var (found, action) = First(layout, pass);
        var has = string.Join(", ",
            layout.Verbs.Select(verb => verb.Name == LayoutActs.NameOf(verb.Act) ? verb.Name : $"{verb.Name} ({LayoutActs.NameOf(verb.Act)})"));
        return new Refusal($"layout {layout.Name}, for \"{wanted}\"", found, $"what its verbs say: {has}", action);
    }

    private static (string Found, string Action) First(Layout layout, Pass pass)
    {
        var (one, other) = pass.Work.Corners;
        foreach (var cell in new[] { pass.Entry.Cell, one, other })
            if (cell.X >= layout.PositionsX || cell.Y >= layout.PositionsY)
                return ($"cell {cell}, where it counts {layout.PositionsX} x {layout.PositionsY} places",
                    "Make the shape smaller, or count more places (positions_x, positions_y).");
        if (pass.Entry.Layer > pass.Before.Layer && !layout.Verbs.Any(verb => verb.Act == LayoutAct.Rise || verb.Has(LayoutRole.Rise)))
            return ("no way up to the next layer", "Add a verb that does rise, or a field for rise.");
        if (pass.Entry.Head == Head.B && !layout.Verbs.Any(verb => verb.Has(LayoutRole.Head)))
            return ("no way to take head b", "Use head a alone in the shape, or add a field for head.");
        if (pass.Record.Verb == Verb.Wait)
            return pass.Record.Heading == 1 ? ("no verb that holds for the operator", "Add a verb that does hold.")
                : ($"no verb that waits {pass.Record.P}, {pass.Record.Q} (tenths of a second)", "Add a verb that does wait, with room for the time.");
        if (pass.Work.Cells > 0 && !layout.Verbs.Any(verb => verb.Act is LayoutAct.Dot or LayoutAct.Row or LayoutAct.Patch or LayoutAct.Square))
            return ("no verb that works a cell", "Add a verb that does dot, row, patch or square.");
        if (!layout.Verbs.Any(verb => verb.Act is LayoutAct.Go or LayoutAct.Step || verb.Has(LayoutRole.X) || verb.Has(LayoutRole.Y)))
            return ($"no verb that moves to {pass.Entry.Cell}", "Add a verb that does go or step.");
        return ($"no way to {(pass.Work.Cells > 0 ? "work" : "go to")} {pass.Entry.Cell} from {pass.Before.Cell}, "
            + $"with head {RecordWords.Name(pass.Entry.Head)}",
            "Add what is missing: a direction, a wider field, or a verb that moves idle.");
    }
}

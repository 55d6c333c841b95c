using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>One control line: its name, its function of the opcode, and the least sum of products of that.</summary>
/// <param name="Name">The line.</param>
/// <param name="Means">What it says where it is 1, in words.</param>
/// <param name="Function">What it is for each opcode.</param>
/// <param name="Sum">The least sum.</param>
public sealed record ControlLine(string Name, string Means, LogicFunction Function, SumOfProducts Sum);

/// <summary>
/// The control lines of a layout, each a function of the opcode: of the bits that name verbs, and those that choose head, rise and direction.
/// </summary>
public sealed class ControlLines
{
    private static readonly LayoutRole[] Choosing =
    [
        LayoutRole.Head, LayoutRole.Rise, LayoutRole.Heading, LayoutRole.StepX, LayoutRole.SignX, LayoutRole.StepY, LayoutRole.SignY,
        LayoutRole.AlongY, LayoutRole.Way,
    ];

    private ControlLines(Layout layout)
    {
        Layout = layout;
        Opcode = layout.Verbs.Aggregate(0UL, (mask, verb) => mask | verb.Named
            | verb.Sources.Where(pair => Choosing.Contains(pair.Key)).Aggregate(0UL, (bits, pair) => bits | pair.Value.Mask));
        Bits = [.. Enumerable.Range(0, 8 * layout.RecordBytes).Where(bit => (Opcode >> bit & 1) == 1)];
        Names = [.. Bits.Select(NameOf)];
    }

    /// <summary>The layout.</summary>
    public Layout Layout { get; }

    /// <summary>The opcode's bits in a record.</summary>
    public ulong Opcode { get; }

    /// <summary>The same one by one, the lowest first: the inputs of the functions.</summary>
    public IReadOnlyList<int> Bits { get; }

    /// <summary>What the inputs are called: the field, and its bit where it has several.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>The lines.</summary>
    public IReadOnlyList<ControlLine> Lines { get; private init; } = [];

    /// <summary>Works the lines out.</summary>
    /// <exception cref="RefusedException">The opcode has more than 12 bits, or none.</exception>
    public static ControlLines Of(Layout layout)
    {
        var lines = new ControlLines(layout);
        if (lines.Bits.Count is 0 or > LogicFunction.MostInputs)
            throw new RefusedException($"layout {layout.Name}", $"an opcode of {lines.Bits.Count} bits ({string.Join(", ", lines.Names)})",
                $"1 to {LogicFunction.MostInputs} bits", "Name the verbs with fewer bits: each further one doubles the tables.");
        var functions = lines.Functions().Select(pair => (pair.Name, pair.Means, Function: new LogicFunction(lines.Bits.Count, pair.Value))).ToList();
        return new ControlLines(layout) { Lines = [.. functions.AsParallel().AsOrdered()
            .Select(pair => new ControlLine(pair.Name, pair.Means, pair.Function, SumOfProducts.Least(pair.Function)))] };
    }

    /// <summary>The record that has an opcode, all its other bits 0.</summary>
    public ulong WordOf(int opcode) => Bits.Select((bit, input) => (ulong)(opcode >> input & 1) << bit).Aggregate(0UL, (word, bit) => word | bit);

    /// <summary>The verb of an opcode; null where it is none's, or names no heading.</summary>
    public LayoutVerb? VerbOf(int opcode)
    {
        var word = WordOf(opcode);
        var verb = Layout.Verbs.FirstOrDefault(candidate => ((word ^ candidate.Bits) & candidate.Fixed & Opcode) == 0);
        return verb is { Act: LayoutAct.Row or LayoutAct.Step } && Layout.HeadingOf(verb, word) is null ? null : verb;
    }

    // With a fault the machine stops: what the other lines are then is of no matter.
    private IEnumerable<(string Name, string Means, Func<int, bool?> Value)> Functions()
    {
        yield return ("fault", "no verb has these bits; what the other lines are is then of no matter", opcode => VerbOf(opcode) is null);
        foreach (var verb in Layout.Verbs)
            yield return ($"is_{verb.Name}", $"the record is one of the verb {verb.Name}", opcode => VerbOf(opcode) is { } owner ? owner == verb : null);
        foreach (var (name, means, value) in OfVerb())
            yield return (name, means, opcode => VerbOf(opcode) is { } verb ? value(verb, WordOf(opcode)) : null);
    }

    private IEnumerable<(string Name, string Means, Func<LayoutVerb, ulong, bool?> Value)> OfVerb() =>
    [
        ("end", "the job is complete", (verb, _) => verb.Act == LayoutAct.End),
        ("repeat", "the last records are done again", (verb, _) => verb.Act == LayoutAct.Again),
        ("wait", "it waits, for a time or for the operator", (verb, _) => verb.Act is LayoutAct.Wait or LayoutAct.Hold),
        ("rise", "up one layer, before anything else", (verb, word) => verb.Act == LayoutAct.Rise || verb.Read(LayoutRole.Rise, word) == 1),
        ("set_head", "the record names a head, which is remembered from then on", (verb, _) => verb.Has(LayoutRole.Head)),
        ("head", "the head that it names is b; 0 is a",
            (verb, word) => verb.Has(LayoutRole.Head) ? verb.Read(LayoutRole.Head, word) == 1 : null),
        ("base", "the head goes idle to (0, 0)", (verb, _) => verb.Act == LayoutAct.Base),
        ("step", "the head goes idle so many cells along a heading", (verb, _) => verb.Act == LayoutAct.Step),
        ("work", "cells are worked: the pen is down, or a dot is set on each",
            (verb, _) => verb.Act is LayoutAct.Dot or LayoutAct.Row or LayoutAct.Patch or LayoutAct.Square or LayoutAct.Line),
        ("line", "they are those of a straight line, from where the head is to the record's place",
            (verb, _) => verb.Act == LayoutAct.Line),
        ("fill", "they are those of a rectangle, row by row, back and forth", (verb, _) => IsFill(verb)),
        ("along_y", "the rows of the rectangle run along Y; 0: along X",
            (verb, word) => IsFill(verb) ? LayoutNumbers.WayOf(verb, word).HasFlag(PatchWay.AlongY) : null),
        ("move_x", "X has to move: to a place, along a heading, or over a rectangle",
            (verb, word) => Moves(verb, word, Heading.Dx, LayoutRole.X)),
        ("falls_x", "X counts down, along the heading or from the rectangle's corner; 0: up",
            (verb, word) => Falls(verb, word, Heading.Dx, PatchWay.XFalls)),
        ("move_y", "Y has to move, likewise", (verb, word) => Moves(verb, word, Heading.Dy, LayoutRole.Y)),
        ("falls_y", "Y counts down, likewise", (verb, word) => Falls(verb, word, Heading.Dy, PatchWay.YFalls)),
    ];

    private static bool IsFill(LayoutVerb verb) => verb.Act is LayoutAct.Patch or LayoutAct.Square;

    private bool Moves(LayoutVerb verb, ulong word, Func<int, int> along, LayoutRole place) => verb.Act switch
    {
        LayoutAct.Row or LayoutAct.Step => along(Layout.HeadingOf(verb, word) ?? 0) != 0,
        LayoutAct.Patch or LayoutAct.Square or LayoutAct.Base => true,
        _ => verb.Has(place),
    };

    private bool? Falls(LayoutVerb verb, ulong word, Func<int, int> along, PatchWay falls)
    {
        if (IsFill(verb))
            return LayoutNumbers.WayOf(verb, word).HasFlag(falls);
        if (verb.Act is not (LayoutAct.Row or LayoutAct.Step) || along(Layout.HeadingOf(verb, word) ?? 0) is var step && step == 0)
            return null;
        return step < 0;
    }

    private string NameOf(int bit)
    {
        var owner = Layout.Fields.First(candidate => candidate.Bits.Contains(bit));
        return owner.Bits.Count == 1 ? owner.Name : $"{owner.Name}{owner.Bits.Count - 1 - owner.Bits.ToList().IndexOf(bit)}";
    }
}

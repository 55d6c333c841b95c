using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>One way to change a shape.</summary>
/// <param name="Way">How it is laid and turned first.</param>
/// <param name="Percent">Its size along each axis.</param>
/// <param name="Base">The shape of that size, lying that way.</param>
/// <param name="Edits">What is changed about that.</param>
internal sealed record FitCandidate(Orientation Way, int Percent, Shape Base, IReadOnlyList<Edit> Edits)
{
    /// <summary>Base with its edits, and what they change.</summary>
    public (Shape Edited, FitChange Change) Made()
    {
        var before = Way.Inverse.Of(Base);
        if (Edits.Count == 0)
            return (Base, new FitChange(Way, Percent, "", 0, before, before));
        var edited = Edit.Made(Base, Edits);
        var difference = ShapeCheck.Compare(Base, edited);
        var cells = difference.Missing + difference.Extra + difference.WrongHead;
        return (edited, new FitChange(Way, Percent, Words(difference), cells, before, Way.Inverse.Of(edited)));
    }

    /// <summary>
    /// The edited shape as the machine works it: moved to the corner where it was laid or does not fit otherwise, and held. Null where the machine cannot.
    /// </summary>
    public Shape? Worked(Shape edited, Machine machine, bool addSupport)
    {
        if (edited.IsEmptyEverywhere)
            return null;
        var placed = Way.Below == Face.Bottom && MachineFit.Refusal(edited, machine) is null ? edited : edited.Cropped();
        if (MachineFit.Refusal(placed, machine) is not null)
            return null;
        if (!addSupport)
            return Support.Falling(placed, machine) is null ? placed : null;
        try
        {
            return Support.Under(placed, machine);
        }
        catch (RefusedException)
        {
            return null; // what would have to be supported in a closed hollow is no way to work it
        }
    }

    private string Words(ShapeDifference difference)
    {
        var counts = new[] { (difference.Extra, "put in"), (difference.Missing, "left out"), (difference.WrongHead, "worked by the other head") };
        var words = string.Join(", ", Edits.Select(edit => edit.Words).Distinct());
        var changed = string.Join(", ", counts.Where(count => count.Item1 > 0).Select((count, index) =>
            $"{count.Item1}{(index > 0 ? "" : count.Item1 == 1 ? " cell" : " cells")} {count.Item2}"));
        return changed.Length == 0 ? words : $"{words}: {changed}";
    }
}

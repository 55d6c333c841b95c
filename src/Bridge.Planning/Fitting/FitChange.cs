namespace Bridge.Planning;

/// <summary>What was changed about a shape, as the person who made it sees it.</summary>
/// <param name="Way">How it lies.</param>
/// <param name="Percent">Its size along each axis, 100 where that is kept.</param>
/// <param name="Edits">Which cells were changed, in words; empty where none were.</param>
/// <param name="Cells">How many cells were changed: put in, left out or given to the other head. A smaller size counts none.</param>
/// <param name="Before">The shape, at its new size.</param>
/// <param name="After">The changed shape, seen as the shape was given: not turned or laid.</param>
public sealed record FitChange(Orientation Way, int Percent, string Edits, long Cells, Shape Before, Shape After)
{
    /// <summary>Whether nothing was changed.</summary>
    public bool IsNone => Percent == 100 && Cells == 0 && Way == Orientation.AsItIs;

    /// <summary>The layers on which cells were changed, the lowest first.</summary>
    public IEnumerable<int> Layers => Enumerable.Range(0, Before.Layers).Where(layer => !ShapeCheck.AreSame(Before, After, layer));

    /// <summary>All of it in plain words.</summary>
    public override string ToString()
    {
        List<string> words = [];
        if (Way != Orientation.AsItIs)
            words.Add($"{Way}");
        if (Percent < 100)
            words.Add($"made {Percent} % of its size, {Before.Width} x {Before.Depth} x {Before.Layers} cells");
        if (Edits.Length > 0)
            words.Add(Edits);
        return words.Count == 0 ? "as it is" : string.Join("; ", words);
    }

    /// <summary>Which of two changes is the lesser: the larger size, then the fewer cells, then as it is before turned before laid.</summary>
    internal (int, long, int) Weight => (-Percent, Cells, Way == Orientation.AsItIs ? 0 : Way.Below == Face.Bottom ? 1 : 2);
}

/// <summary>A shape, changed or not, and its plan.</summary>
/// <param name="Change">What was changed.</param>
/// <param name="Worked">The shape that is worked: changed, turned and laid, with its support.</param>
/// <param name="Plan">Its plan.</param>
public sealed record Fitted(FitChange Change, Shape Worked, Plan Plan)
{
    /// <summary>By how many bytes the job is too long for the store, 0 where it fits. A store that is full needs no end.</summary>
    public long BytesTooMany => Plan.Fits ? 0 : Plan.ImageBytes - Plan.Width.Bytes - Plan.StoreBytes;
}

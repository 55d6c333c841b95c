namespace Bridge.Layouts;

/// <summary>How the records of a machine hold what they mean, where its builder chose fields of their own.</summary>
public sealed record Layout
{
    /// <summary>What people call it, 1 to 64 characters.</summary>
    public required string Name { get; init; }

    /// <summary>Bytes of one record, 1 to 8.</summary>
    public required int RecordBytes { get; init; }

    /// <summary>Places along X that the machine counts, 1 to 4096.</summary>
    public required int PositionsX { get; init; }

    /// <summary>Places along Y that the machine counts, 1 to 4096.</summary>
    public required int PositionsY { get; init; }

    /// <summary>Whether x and y say how far from where the head stands, and not how far from (0, 0).</summary>
    public required bool IsRelative { get; init; }

    /// <summary>Whether place 0 is the lowest bit of the first byte, and so on in each byte, and not the highest.</summary>
    public bool IsLowFirst { get; init; }

    /// <summary>What stands for one cell, one record or one more time: 1 where it is written as 0, 0 where it is written as 1.</summary>
    public required int CountsFrom { get; init; }

    /// <summary>Freeman's heading for each number of a heading's field; null where its width decides.</summary>
    public IReadOnlyList<int>? Headings { get; init; }

    /// <summary>The fields, in the order of the file.</summary>
    public required IReadOnlyList<LayoutField> Fields { get; init; }

    /// <summary>The verbs, in the order of the file; one of them is an end.</summary>
    public required IReadOnlyList<LayoutVerb> Verbs { get; init; }

    /// <summary>The verb that owns a record; null where none does, and that is a fault.</summary>
    public LayoutVerb? VerbOf(ulong word) => Verbs.FirstOrDefault(verb => verb.Owns(word));

    /// <summary>The verbs that do something.</summary>
    public IEnumerable<LayoutVerb> Doing(LayoutAct act) => Verbs.Where(verb => verb.Act == act);

    /// <summary>The place of a bit of a record, as the layout counts places; bits are counted from 0, the lowest bit of the last byte.</summary>
    public int PlaceOf(int bit) => 8 * (RecordBytes - 1 - bit / 8) + (IsLowFirst ? bit % 8 : 7 - bit % 8);

    /// <summary>The headings that a field of so many bits names, in the order of its numbers: eight, four or two of Freeman's.</summary>
    public IReadOnlyList<int> HeadingsOf(int width) => Headings ?? width switch
    {
        3 => [0, 1, 2, 3, 4, 5, 6, 7],
        2 => [0, 2, 4, 6],
        1 => [0, 2],
        _ => [0],
    };
}

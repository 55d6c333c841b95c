namespace Bridge.Layouts;

/// <summary>
/// The names of fields above their boxes, each where its field begins, with a rule down to it: in as many lines as it takes for none to cover another.
/// </summary>
internal sealed class FieldNames
{
    private const int MostLines = 10;
    private const double LineMm = 2;
    private const double Size = 2;
    private const double GapMm = 0.8; // below the rule of the head

    private readonly IReadOnlyList<(double X, int Line, string Name)> _names;

    private FieldNames(IReadOnlyList<(double X, int Line, string Name)> names) => _names = names;

    /// <summary>How high all lines are.</summary>
    public double HeightMm => _names.Count == 0 ? 0 : (_names.Max(name => name.Line) + 1) * LineMm + GapMm;

    /// <summary>Sets the names; where they would take too many lines, long ones are cut.</summary>
    /// <param name="boxes">The boxes.</param>
    /// <param name="at">Where a box begins, in mm.</param>
    public static FieldNames Above(SheetBoxes boxes, Func<int, double> at)
    {
        var runs = boxes.Runs.Select(run => (X: at(run.First), run.Field)).Reverse().ToList();
        for (var letters = runs.Select(run => run.Field.Length).DefaultIfEmpty(1).Max(); ; letters--)
            if (Set(runs, letters) is var names && (letters == 1 || names.All(name => name.Line < MostLines)))
                return new FieldNames(names);
    }

    /// <summary>The names with their rules.</summary>
    /// <param name="bottom">Where the lowest line ends.</param>
    /// <param name="boxes">The upper side of the boxes.</param>
    public IEnumerable<Mark> Marks(double bottom, double boxes)
    {
        foreach (var (x, line, name) in _names)
        {
            var baseLine = bottom - line * LineMm - 0.5;
            yield return new Mark.Text(x + 0.4, baseLine, Size, name);
            yield return new Mark.Rule(x, baseLine - 1.4, x, boxes);
        }
    }

    // From the right: a name stands one line higher than all whose rules it reaches over.
    private static List<(double X, int Line, string Name)> Set(List<(double X, string Field)> runs, int letters)
    {
        var names = new List<(double X, int Line, string Name)>();
        foreach (var (x, field) in runs)
        {
            var name = field[..Math.Min(letters, field.Length)];
            var ends = x + 0.6 + name.Length * Size * Page.LetterWidth;
            names.Add((x, names.Where(other => other.X < ends).Select(other => other.Line + 1).DefaultIfEmpty(0).Max(), name));
        }
        return names;
    }
}

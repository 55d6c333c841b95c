using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>
/// A job to measure on, drawn on a machine's own grid: a line along X and one along Y from the first corner, a mark at the far corner, and, where there are two
/// heads, a line along each axis that head a begins and head b goes on with. No cell is worked twice.
/// </summary>
public static class CalibrationPattern
{
    /// <summary>The fewest cells along X and along Y that it takes.</summary>
    public const int LeastCells = 4;

    /// <summary>Its records, the end among them.</summary>
    /// <exception cref="RefusedException">The grid is too small.</exception>
    public static IReadOnlyList<Record> Of(Machine machine)
    {
        var (width, far) = (machine.Width, new Cell(machine.X.Cells - 1, machine.Y.Cells - 1));
        if (machine.X.Cells < LeastCells || machine.Y.Cells < LeastCells)
            throw new RefusedException("grid", $"{machine.Grid} cells", $"at least {LeastCells} along X and along Y",
                "Measure between marks of your own, with bridge move and bridge heads.");
        List<Record> records =
        [
            Record.Row(width, Head.A, default, AlongX, machine.X.Cells),
            Record.Row(width, Head.A, new Cell(0, 1), AlongY, machine.Y.Cells - 1),
            Record.Row(width, Head.A, far, AlongX, 1),
        ];
        if (machine.B is not null)
            foreach (var head in (Head[])[Head.A, Head.B])
            {
                var (first, count) = HalfOf(head, machine.Y.Cells - 2);
                records.Add(Record.Row(width, head, new Cell(LineAlongY(machine), 1 + first), AlongY, count));
                (first, count) = HalfOf(head, machine.X.Cells - StartAlongX(machine));
                records.Add(Record.Row(width, head, new Cell(StartAlongX(machine) + first, LineAlongX(machine)), AlongX, count));
            }

        return [.. records, Record.End];
    }

    /// <summary>The line along Y that both heads draw: its cell along X.</summary>
    public static int LineAlongY(Machine machine) => machine.X.Cells / 4;

    /// <summary>The line along X that both heads draw: its cell along Y.</summary>
    public static int LineAlongX(Machine machine) => machine.Y.Cells / 2;

    /// <summary>The sides of the rectangle whose corners are the ends of the long lines and the mark, in mm.</summary>
    public static (double X, double Y) SidesMm(Machine machine) =>
        ((machine.X.Cells - 1) * machine.X.PitchMm, (machine.Y.Cells - 1) * machine.Y.PitchMm);

    private const int AlongX = 0;
    private const int AlongY = 2; // Freeman's headings go by 45 degrees

    // It stays clear of the line along Y.
    private static int StartAlongX(Machine machine) => machine.X.Cells / 2;

    private static (int First, int Count) HalfOf(Head head, int cells) => head == Head.A ? (0, cells / 2) : (cells / 2, cells - cells / 2);
}

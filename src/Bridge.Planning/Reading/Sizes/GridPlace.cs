namespace Bridge.Planning;

/// <summary>Where on the grid the corner nearest (0, 0) of what is read comes to lie.</summary>
/// <param name="X">Along X, 0 and up.</param>
/// <param name="Y">Along Y, 0 and up.</param>
public sealed record GridPlace(Length X, Length Y)
{
    /// <summary>At the grid's own corner.</summary>
    public static GridPlace Corner { get; } = new(default, default);

    /// <summary>In the middle of the grid, as nearly as whole cells allow; X and Y do not count.</summary>
    public static GridPlace Middle { get; } = new(default, default) { IsMiddle = true };

    /// <summary>Whether it is the middle of the grid.</summary>
    public bool IsMiddle { get; private init; }

    /// <summary>As people write it.</summary>
    public override string ToString() => IsMiddle ? "middle" : $"{X},{Y}";

    /// <summary>Reads `middle` or two lengths with a comma between, both in cells or both in mm, none below 0.</summary>
    public static GridPlace? Parse(string text)
    {
        if (text == "middle")
            return Middle;
        return text.Split(',') is [var first, var second] && Length.TryParse(first, out var x) && Length.TryParse(second, out var y)
            && x.Value >= 0 && y.Value >= 0 && x.IsMm == y.IsMm ? new GridPlace(x, y) : null;
    }

    /// <summary>The corner in cells, for something of some cells along X and Y.</summary>
    internal (double X, double Y) InCells(double cellsX, double cellsY, ShapeOptions options) => IsMiddle
        ? (Math.Max(0, Math.Floor((options.Fill.X - cellsX) / 2)), Math.Max(0, Math.Floor((options.Fill.Y - cellsY) / 2)))
        : (X.ToCells(options.Pitch.X), Y.ToCells(options.Pitch.Y));
}

namespace Bridge.Jobs;

/// <summary>A straight part of the way along which a record works.</summary>
/// <param name="From">Where it starts; this cell is not the leg's own.</param>
/// <param name="To">Its last cell.</param>
public readonly record struct Leg(Cell From, Cell To)
{
    /// <summary>Cells worked: the longer of its two sides.</summary>
    public int Cells => Math.Max(Math.Abs(To.X - From.X), Math.Abs(To.Y - From.Y));
}

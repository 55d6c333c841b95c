using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>One way to work a block: from a corner to where that ends. Turned round it is a way too.</summary>
/// <param name="First">The cell it starts with.</param>
/// <param name="Last">The cell it ends with.</param>
/// <param name="AlongY">Whether the rows of a rectangle run along Y.</param>
internal readonly record struct Stroke(Cell First, Cell Last, bool AlongY)
{
    /// <summary>The same way, turned round.</summary>
    public Stroke Turned => this with { First = Last, Last = First };
}

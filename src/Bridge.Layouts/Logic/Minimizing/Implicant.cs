using System.Numerics;

namespace Bridge.Layouts;

/// <summary>A product of literals: the inputs that must have a value, and those that are free.</summary>
/// <param name="Value">The values of the inputs that are not free; 0 where they are free.</param>
/// <param name="Free">The inputs that are not in the product.</param>
public readonly record struct Implicant(int Value, int Free)
{
    /// <summary>Whether a combination of inputs makes it 1.</summary>
    public bool Covers(int minterm) => (minterm & ~Free) == Value;

    /// <summary>How many literals it has of so many inputs.</summary>
    public int Literals(int inputs) => inputs - BitOperations.PopCount((uint)Free);
}

using System.Numerics;

namespace Bridge.Planning;

/// <summary>Triangles, three corners each, counter-clockwise seen from outside.</summary>
internal sealed class Mesh(Vector3[] corners)
{
    /// <summary>Three corners for each triangle.</summary>
    public ReadOnlySpan<Vector3> Corners => corners;

    /// <summary>How many triangles.</summary>
    public int Count => corners.Length / 3;
}

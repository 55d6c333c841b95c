using System.Numerics;

namespace Planning.Bench;

/// <summary>A ball of triangles: an octahedron whose triangles are cut in four again and again, their corners put on the ball.</summary>
internal static class BallMesh
{
    /// <summary>Three corners for each triangle, which face outwards.</summary>
    public static List<Vector3> Of(Vector3 middle, float radius, int cuts)
    {
        List<Vector3> corners = [];
        foreach (var x in new[] { 1, -1 })
            foreach (var y in new[] { 1, -1 })
                foreach (var z in new[] { 1, -1 })
                    corners.AddRange(x * y * z > 0
                        ? [new Vector3(x, 0, 0), new Vector3(0, y, 0), new Vector3(0, 0, z)]
                        : [new Vector3(0, y, 0), new Vector3(x, 0, 0), new Vector3(0, 0, z)]);
        for (; cuts > 0; cuts--)
            corners = Cut(corners);
        return corners.ConvertAll(corner => middle + radius * corner);
    }

    private static List<Vector3> Cut(List<Vector3> corners)
    {
        var cut = new List<Vector3>(4 * corners.Count);
        for (var i = 0; i < corners.Count; i += 3)
        {
            var (a, b, c) = (corners[i], corners[i + 1], corners[i + 2]);
            var (ab, bc, ca) = (Vector3.Normalize(a + b), Vector3.Normalize(b + c), Vector3.Normalize(c + a));
            cut.AddRange([a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca]);
        }
        return cut;
    }
}

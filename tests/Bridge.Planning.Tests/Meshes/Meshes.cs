using System.Buffers.Binary;
using System.Globalization;
using System.Numerics;
using System.Text;

namespace Bridge.Planning.Tests;

internal static class Meshes
{
    // The corners of twelve triangles that face outwards.
    public static Vector3[] Box(float x, float y, float z, float sizeX, float sizeY, float sizeZ)
    {
        int[] corners = [0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5];
        return [.. corners.Select(i => new Vector3(x + (i & 1) * sizeX, y + (i >> 1 & 1) * sizeY, z + (i >> 2) * sizeZ))];
    }

    public static Vector3[] Backwards(IEnumerable<Vector3> corners) => [.. corners.Chunk(3).SelectMany(t => new[] { t[0], t[2], t[1] })];

    // An octahedron whose triangles are cut in four again and again, their corners put on the ball.
    public static Vector3[] Ball(Vector3 middle, float radius, int cuts)
    {
        Vector3[] corners = [.. from x in new[] { 1, -1 } from y in new[] { 1, -1 } from z in new[] { 1, -1 }
            from corner in x * y * z > 0
                ? new[] { new Vector3(x, 0, 0), new Vector3(0, y, 0), new Vector3(0, 0, z) }
                : [new Vector3(0, y, 0), new Vector3(x, 0, 0), new Vector3(0, 0, z)]
            select corner];
        for (; cuts > 0; cuts--)
            corners = [.. corners.Chunk(3).SelectMany(Quarters)];
        return [.. corners.Select(corner => middle + radius * corner)];
    }

    public static byte[] Binary(params IEnumerable<Vector3> corners)
    {
        var all = corners.ToArray();
        var file = new byte[84 + 50 * (all.Length / 3)];
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(80), all.Length / 3);
        for (var i = 0; i < all.Length; i++)
            for (var axis = 0; axis < 3; axis++)
                BinaryPrimitives.WriteSingleLittleEndian(file.AsSpan(84 + 50 * (i / 3) + 12 + 12 * (i % 3) + 4 * axis), all[i][axis]);
        return file;
    }

    public static byte[] Text(params IEnumerable<Vector3> corners) => Encoding.ASCII.GetBytes("solid a b\n" + string.Concat(corners.Chunk(3).Select(t =>
        "facet normal 0 0 0\n outer loop\n" + string.Concat(t.Select(c => string.Create(CultureInfo.InvariantCulture, $"  vertex {c.X} {c.Y} {c.Z:E8}\r\n")))
        + " endloop\nendfacet\n")) + "endsolid a b\n");

    private static IEnumerable<Vector3> Quarters(Vector3[] t)
    {
        Vector3 Between(Vector3 a, Vector3 b) => Vector3.Normalize(a + b);
        var (ab, bc, ca) = (Between(t[0], t[1]), Between(t[1], t[2]), Between(t[2], t[0]));
        return [t[0], ab, ca, ab, t[1], bc, ca, bc, t[2], ab, bc, ca];
    }
}

using System.Numerics;

namespace Bridge.Planning;

/// <summary>What keeps a mesh from being the skin of a solid: edges that do not have two triangles, one on each side.</summary>
/// <param name="OpenEdges">Edges with an odd number of triangles.</param>
/// <param name="TurnedEdges">Edges with as many triangles as they should have, that face different ways.</param>
/// <param name="IsInsideOut">Whether the triangles face inwards on the whole.</param>
internal readonly record struct MeshFlaws(int OpenEdges, int TurnedEdges, bool IsInsideOut)
{
    /// <summary>The flaws of a mesh; corners are the same where their numbers are.</summary>
    public static MeshFlaws Of(Mesh mesh)
    {
        var edges = Edges(mesh);
        Array.Sort(edges);
        var (open, turned) = (0, 0);
        for (int i = 0, end; i < edges.Length; i = end)
        {
            var forward = 0;
            for (end = i; end < edges.Length && edges[end] >> 1 == edges[i] >> 1; end++)
                forward += (int)(edges[end] & 1);
            if ((end - i) % 2 == 1)
                open++;
            else if (2 * forward != end - i)
                turned++;
        }
        return new MeshFlaws(open, turned, Volume(mesh) < 0);
    }

    // The lower corner's number, the higher one's, and a bit for the direction.
    private static long[] Edges(Mesh mesh)
    {
        var numbers = new Dictionary<Vector3, int>(mesh.Count);
        var corners = new int[3 * mesh.Count];
        for (var i = 0; i < corners.Length; i++)
        {
            if (!numbers.TryGetValue(mesh.Corners[i], out corners[i]))
                numbers.Add(mesh.Corners[i], corners[i] = numbers.Count);
        }
        var (edges, count) = (new long[corners.Length], 0);
        for (var i = 0; i < corners.Length; i++)
        {
            var (from, to) = (corners[i], corners[i % 3 == 2 ? i - 2 : i + 1]);
            if (from != to)
                edges[count++] = ((((long)Math.Min(from, to) << 31) | (long)Math.Max(from, to)) << 1) | (from < to ? 1L : 0L);
        }
        return edges[..count];
    }

    // Six times the volume, by tetrahedra from the first corner.
    private static double Volume(Mesh mesh)
    {
        var volume = 0.0;
        var from = mesh.Corners[0];
        for (var i = 0; i < 3 * mesh.Count; i += 3)
        {
            var (a, b, c) = (mesh.Corners[i] - from, mesh.Corners[i + 1] - from, mesh.Corners[i + 2] - from);
            volume += Vector3.Dot(a, Vector3.Cross(b, c));
        }
        return volume;
    }
}

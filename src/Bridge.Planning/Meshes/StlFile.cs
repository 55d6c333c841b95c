using System.Buffers.Binary;
using System.Numerics;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>Meshes of triangles in STL, text or binary, made solid on the grid. They know no units.</summary>
public static class StlFile
{
    /// <summary>Most triangles: 2 million.</summary>
    public const int MostTriangles = 2_000_000;

    private const float Largest = 1e12f; // how far from 0 a corner may lie
    private const int HeadBytes = 84; // 80 of anything, then the count, little-endian (common practice)
    private const int TriangleBytes = 50; // the normal and three corners of three floats each, then two bytes of anything

    /// <summary>Reads a mesh and makes it solid, as large as the options say or as fits, standing on the lowest layer.</summary>
    /// <exception cref="RefusedException">It is broken, too much, flat, encloses nothing, or does not lie on the grid.</exception>
    public static Shape Parse(ReadOnlySpan<byte> content, string name, ShapeOptions options)
    {
        var mesh = Read(content, name, options.Caution);
        return MeshOnGrid.Solid(mesh, name, options);
    }

    /// <summary>Reads the triangles of a mesh.</summary>
    internal static Mesh Read(ReadOnlySpan<byte> content, string name, Action<string>? caution)
    {
        var isBinary = content.Length >= HeadBytes && HeadBytes + TriangleBytes * Count(content) == content.Length;
        var corners = !isBinary && StlText.IsText(content) ? StlText.Read(content, name) : Binary(content, name, caution);
        if (corners.Length == 0)
            throw new RefusedException(name, "a mesh without triangles", "4 triangles or more", "Save the mesh again as STL.");
        for (var i = 0; i < corners.Length; i++)
            if (!(Math.Abs(corners[i].X) <= Largest && Math.Abs(corners[i].Y) <= Largest && Math.Abs(corners[i].Z) <= Largest))
                throw new RefusedException($"{name}, triangle {i / 3 + 1}",
                    FormattableString.Invariant($"the corner {corners[i].X}, {corners[i].Y}, {corners[i].Z}"),
                    "numbers of up to 1e12", "Mend the mesh and save it again.");
        return new Mesh(corners);
    }

    private static long Count(ReadOnlySpan<byte> content) => BinaryPrimitives.ReadUInt32LittleEndian(content[80..]);

    private static Vector3[] Binary(ReadOnlySpan<byte> content, string name, Action<string>? caution)
    {
        if (content.Length < HeadBytes)
            throw new RefusedException(name, $"{content.Length} bytes", $"an STL, of {HeadBytes} bytes and more if it is binary",
                "Save the mesh again as STL.");
        var count = Count(content);
        var needed = HeadBytes + TriangleBytes * count;
        if (content.Length < needed)
            throw new RefusedException(name, $"{content.Length} bytes, where {count} triangles are announced", $"{needed} bytes",
                "Is the file cut off? Save the mesh again as STL.");
        CheckCount(count, name);
        if (content.Length > needed)
            caution?.Invoke($"{name}: {content.Length - needed} bytes behind the last triangle are passed over.");
        var corners = new Vector3[3 * count];
        for (var i = 0; i < corners.Length; i++)
        {
            var at = content.Slice(HeadBytes + TriangleBytes * (i / 3) + 12 + 12 * (i % 3), 12);
            corners[i] = new Vector3(BinaryPrimitives.ReadSingleLittleEndian(at), BinaryPrimitives.ReadSingleLittleEndian(at[4..]),
                BinaryPrimitives.ReadSingleLittleEndian(at[8..]));
        }
        return corners;
    }

    /// <summary>Refuses too many triangles.</summary>
    internal static void CheckCount(long count, string name)
    {
        if (count > MostTriangles)
            throw new RefusedException(name, $"{count} triangles", $"up to {MostTriangles}", "Make the mesh coarser.");
    }
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>A mesh turned, made as large as was asked, and put in its place on the grid; then its solid.</summary>
internal static class MeshOnGrid
{
    private const double Slack = 1e-6; // cells that a size may be off by rounding

    /// <summary>The solid of a mesh as a shape, worked by head a.</summary>
    /// <exception cref="RefusedException">It is flat, encloses nothing, does not lie on the grid, or the machine has one layer alone.</exception>
    public static Shape Solid(Mesh mesh, string name, ShapeOptions options)
    {
        if (options.Fill.Layers == 1)
            throw new RefusedException(name, "a mesh for a machine of one layer", "meshes for machines of several layers", "Take a machine that has layers.");
        var turned = Turned(mesh, options.Turns);
        var (least, size) = Extent(turned);
        var (pitch, limit) = (options.Pitch, options.Limit);
        var unitMm = UnitMm(size, name, options);
        var perUnit = new Cells(unitMm / pitch.X, unitMm / pitch.Y, unitMm / pitch.Z);
        var (width, depth, layers) = (size.X * perUnit.X, size.Y * perUnit.Y, size.Z * perUnit.Z);
        var (x, y) = options.Place.InCells(Math.Ceiling(width - Slack), Math.Ceiling(depth - Slack), options);
        if (!(x + width <= limit.X + Slack && y + depth <= limit.Y + Slack && layers <= limit.Layers + Slack))
            throw new RefusedException(name, FormattableString.Invariant($"a solid that reaches to {x + width:0.#} x {y + depth:0.#} x {layers:0.#} cells"),
                $"up to {limit} cells", "Give a smaller size or another place, or take a larger machine.");
        for (var i = 0; i < turned.Length; i++)
            turned[i] = new Cells(x + (turned[i].X - least.X) * perUnit.X, y + (turned[i].Y - least.Y) * perUnit.Y, (turned[i].Z - least.Z) * perUnit.Z);
        return Of(turned, MeshFlaws.Of(mesh), new Grid(ToCells(x + width), ToCells(y + depth), ToCells(layers)), name, options);
    }

    /// <summary>The solid of corners in cells on a grid of its own, with what was made good told as cautions.</summary>
    public static Shape Of(Cells[] corners, MeshFlaws flaws, Grid grid, string name, ShapeOptions options)
    {
        var shape = new ShapeBuilder(grid.X, grid.Y, grid.Layers, name); // refuses what is too large
        var solid = new MeshSolid(grid, isConsistent: flaws.TurnedEdges == 0, new ReadingEffort(name));
        solid.Vote(corners);
        if (solid.IsOpenEverywhere)
            throw new RefusedException(name, $"a mesh that is open: {flaws.OpenEdges} edges belong to one triangle alone", "the closed skin of a solid",
                "Close the holes and save the mesh again.");
        if (solid.CopyTo(shape) == 0)
            throw new RefusedException(name, $"a mesh that holds no centre of a cell on {grid} cells", "one that holds a cell or more",
                "Is it flat or very thin? Give a larger size.");
        Tell(flaws, solid, name, options.Caution);
        return shape.Build();
    }

    private static void Tell(MeshFlaws flaws, MeshSolid solid, string name, Action<string>? caution)
    {
        if (flaws.OpenEdges > 0)
            caution?.Invoke($"{name}: the mesh is open, {flaws.OpenEdges} of its edges belong to one triangle alone. What lies inside was decided by most "
                + "of the rays along X, Y and Z: look at the pictures.");
        if (flaws.TurnedEdges > 0)
            caution?.Invoke($"{name}: triangles on both sides of {flaws.TurnedEdges} edges face different ways. "
                + "Each was taken as a skin whichever way it faces.");
        else if (flaws.IsInsideOut)
            caution?.Invoke($"{name}: the mesh is inside out. It was taken as the solid that it encloses.");
        if (flaws.TurnedEdges == 0 && solid.HasOverlap)
            caution?.Invoke($"{name}: parts of the mesh overlap or cross. They were taken as one solid.");
    }

    private static Cells[] Turned(Mesh mesh, IReadOnlyList<Turn> turns)
    {
        var sines = turns.Select(turn => (turn.About, turn.SineAndCosine)).ToArray();
        var turned = new Cells[3 * mesh.Count];
        for (var i = 0; i < turned.Length; i++)
        {
            var at = new Cells(mesh.Corners[i].X, mesh.Corners[i].Y, mesh.Corners[i].Z);
            foreach (var (about, (sine, cosine)) in sines)
                at = about switch
                {
                    TurnAxis.X => new Cells(at.X, cosine * at.Y - sine * at.Z, sine * at.Y + cosine * at.Z),
                    TurnAxis.Y => new Cells(sine * at.Z + cosine * at.X, at.Y, cosine * at.Z - sine * at.X),
                    _ => new Cells(cosine * at.X - sine * at.Y, sine * at.X + cosine * at.Y, at.Z),
                };
            turned[i] = at;
        }
        return turned;
    }

    private static (Cells Least, Cells Size) Extent(Cells[] corners)
    {
        var (least, most) = (corners[0], corners[0]);
        foreach (var (x, y, z) in corners)
        {
            least = new Cells(Math.Min(least.X, x), Math.Min(least.Y, y), Math.Min(least.Z, z));
            most = new Cells(Math.Max(most.X, x), Math.Max(most.Y, y), Math.Max(most.Z, z));
        }
        return (least, new Cells(most.X - least.X, most.Y - least.Y, most.Z - least.Z));
    }

    private static double UnitMm(Cells size, string name, ShapeOptions options)
    {
        var (pitch, fill) = (options.Pitch, options.Fill);
        if (!(size.X > 0 && size.Y > 0 && size.Z > 0))
            throw new RefusedException(name, "a mesh that is flat", "one that encloses a solid", "Turn a flat drawing into SVG instead.");
        if (options.Size is { } wanted)
        {
            var (longest, step) = size.X >= size.Y && size.X >= size.Z ? (size.X, pitch.X) : size.Y >= size.Z ? (size.Y, pitch.Y) : (size.Z, pitch.Z);
            return wanted.ToCells(step) * step / longest;
        }
        var (x, y) = options.Place.InCells(fill.X, fill.Y, options); // what is left of the grid from there on is filled
        return Math.Min(Math.Max(1, fill.X - x) * pitch.X / size.X, Math.Min(Math.Max(1, fill.Y - y) * pitch.Y / size.Y, fill.Layers * pitch.Z / size.Z));
    }

    private static int ToCells(double end) => Math.Max(1, (int)Math.Ceiling(end - Slack));
}

/// <summary>A point, or lengths along the axes, in cells.</summary>
internal readonly record struct Cells(double X, double Y, double Z);

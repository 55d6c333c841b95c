using System.Buffers.Binary;
using System.Diagnostics;
using System.Numerics;
using System.Text.Json;
using System.Text.RegularExpressions;
using Bridge.Jobs;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>Meshes from the bytes of a file to a plan.</summary>
internal static partial class Solids
{
    private const double Effort = 1.0 / 64;
    private const long MB = 1_000_000;

    /// <summary>The bunny on 64 x 64 x 64 cells: true where it takes no more than 2 s.</summary>
    public static bool Bunny()
    {
        using var package = new NpmPackage("bunny", "1.0.1");
        var code = File.ReadAllText(package.At("index.js"));
        var positions = JsonSerializer.Deserialize<float[][]>(Positions().Match(code).Groups[1].Value)!;
        var triangles = JsonSerializer.Deserialize<int[][]>(Triangles().Match(code).Groups[1].Value)!;
        var stl = Stl([.. triangles.SelectMany(corners => corners).Select(i => new Vector3(positions[i]))]);
        var standing = Turn.ParseAll("x90")!;
        return Measure($"bunny, {triangles.Length} triangles", 64, options => ShapeFile.Parse(stl, "bunny.stl", options with { Turns = standing }),
            mostSeconds: 2, out _);
    }

    /// <summary>
    /// A ball of triangles on 256 x 256 x 256 cells: true where it takes no more than 10 s and 500 MB and holds just the points of the lattice.
    /// </summary>
    public static bool Ball()
    {
        const int Radius = 127;
        // Between the shells of r^2 and r^2 + 1, where no point of the lattice is.
        var skin = Radius + 0.7f * (MathF.Sqrt(Radius * Radius + 1) - Radius);
        var corners = BallMesh.Of(new Vector3(128.5f), skin, cuts: 8);
        var stl = Stl(corners);
        var isFast = Measure($"ball, {corners.Count / 3} triangles", 256, AsItLies, mostSeconds: 10, out var cells);
        var peak = Process.GetCurrentProcess().PeakWorkingSet64 / MB;
        var points = LatticePoints(Radius);
        Console.WriteLine($"cells {cells}, points of the lattice within {Radius}: {points}; most memory {peak} MB");
        return isFast && cells == points && peak <= 500 && LatticePoints(10) == 4169; // OEIS A000605

        Shape AsItLies(ShapeOptions options) // the middle at the centre of a cell
        {
            var mesh = StlFile.Read(stl, "ball.stl", null);
            var lying = Array.ConvertAll(mesh.Corners.ToArray(), corner => new Cells(corner.X, corner.Y, corner.Z));
            return MeshOnGrid.Of(lying, MeshFlaws.Of(mesh), options.Limit, "ball.stl", options);
        }
    }

    private static bool Measure(string name, int side, Func<ShapeOptions, Shape> read, double mostSeconds, out long cells)
    {
        var gantry = Examples.Machine("desktop-gantry.toml");
        var axis = gantry.X with { Cells = side };
        var machine = gantry with { Width = RecordWidth.Eight, X = axis, Y = axis, Z = axis, StoreBytes = 1 << 20 };
        var (start, busy) = (Stopwatch.GetTimestamp(), Process.GetCurrentProcess().TotalProcessorTime);
        var shape = read(new ShapeOptions { Limit = machine.Grid, Caution = Console.WriteLine }.On(machine));
        var solid = Stopwatch.GetElapsedTime(start).TotalSeconds;
        var plan = Planner.Plan(shape, machine, Effort);
        var all = Stopwatch.GetElapsedTime(start).TotalSeconds;
        var coreSeconds = (Process.GetCurrentProcess().TotalProcessorTime - busy).TotalSeconds;
        cells = shape.Count(Head.A);
        var worked = 0L;
        for (var interpreter = new Interpreter(Image.Of(plan.Width, plan.Records), machine.Grid); interpreter.MoveNext();)
            worked++;
        Table.Print("mesh of", "cells", "worked", "Euler", "solid s", "all s", "core s", "records", "bytes");
        Table.Print(name, $"{cells}", $"{worked}", $"{EulerNumber.Of(shape)}", Table.Number(solid), Table.Number(all), Table.Number(coreSeconds),
            $"{plan.Records.Count}", $"{plan.ImageBytes}");
        return all <= mostSeconds && worked == cells;
    }

    private static byte[] Stl(List<Vector3> corners)
    {
        var file = new byte[84 + 50 * (corners.Count / 3)];
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(80), corners.Count / 3);
        for (var i = 0; i < corners.Count; i++)
            for (var axis = 0; axis < 3; axis++)
                BinaryPrimitives.WriteSingleLittleEndian(file.AsSpan(84 + 50 * (i / 3) + 12 + 12 * (i % 3) + 4 * axis), corners[i][axis]);
        return file;
    }

    private static long LatticePoints(int radius)
    {
        var count = 0L;
        for (var x = -radius; x <= radius; x++)
            for (var y = -radius; y <= radius; y++)
                for (var z = -radius; z <= radius; z++)
                    count += x * x + y * y + z * z <= radius * radius ? 1 : 0;
        return count;
    }

    [GeneratedRegex(@"positions=(\[\[.*?\]\])")]
    private static partial Regex Positions();

    [GeneratedRegex(@"cells=(\[\[.*?\]\])")]
    private static partial Regex Triangles();
}

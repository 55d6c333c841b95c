using System.Diagnostics;
using System.Globalization;
using Bridge.Jobs;
using Bridge.Planning;

namespace Planning.Bench;

/// <summary>The planned order of the stops of a published problem, against its published optimum.</summary>
internal static class PublishedTour
{
    private const double MostAbove = 1.05;

    // TSPLIB's list of optimal solutions: d493, holes to drill (Reinelt 1991).
    private const string Name = "d493";
    private const double Optimum = 35002;

    /// <summary>Prints the table; true where the goal is met.</summary>
    /// <param name="path">The problem's file, as TSPLIB has it.</param>
    public static bool Measure(string path)
    {
        var places = Read(path);
        var cells = places.ConvertAll(place => new Cell((int)Math.Round(place.X), (int)Math.Round(place.Y)));
        var placeAt = cells.Index().ToLookup(cell => cell.Item, cell => cell.Index);
        var blocks = cells.Distinct().Select(cell => new Block(cell.X, cell.Y, 1, 1)).ToList();
        var times = new IdleTimes(Examples.Machine("wide-plotter.toml"), (x, y) => Length(x, y));
        var start = Stopwatch.GetTimestamp();
        var tour = Route.Of(blocks, cells[0], Head.A, comesBack: true, times, new Effort(Planner.MostStepsOfRoute)).ToList();
        var seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        var order = tour.SelectMany(stop => placeAt[stop.Stroke.First]).ToList();
        var length = order.Zip([.. order.Skip(1), order[0]]).Sum(leg =>
            Length(places[leg.First].X - places[leg.Second].X, places[leg.First].Y - places[leg.Second].Y));
        Table.Print("problem", "stops", "planned", "optimum", "ratio", "s to plan");
        Table.Print(Name, $"{order.Count}", $"{length}", $"{Optimum}", FormattableString.Invariant($"{length / Optimum:0.000}"), Table.Number(seconds));
        return order.Distinct().Count() == places.Count && length >= Optimum && length <= MostAbove * Optimum;
    }

    // EUC_2D of TSPLIB: rounded to whole numbers.
    private static double Length(double x, double y) => Math.Floor(Math.Sqrt(x * x + y * y) + 0.5);

    private static List<(double X, double Y)> Read(string path)
    {
        var lines = File.ReadAllLines(path);
        if (!lines.Contains($"NAME : {Name}"))
            throw new InvalidDataException($"{path} is not {Name}.");
        return [.. lines.SkipWhile(line => line != "NODE_COORD_SECTION").Skip(1).TakeWhile(line => line != "EOF")
            .Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => double.Parse(word, CultureInfo.InvariantCulture)).ToArray())
            .Select(numbers => (numbers[1], numbers[2]))];
    }
}

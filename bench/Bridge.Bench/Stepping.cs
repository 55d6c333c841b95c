using Bridge.Jobs;
using Bridge.Teaching;

namespace Bridge.Bench;

/// <summary>How long a person waits for an answer while they step through a job of 10 000 records on the wide plotter, going back included.</summary>
internal static class Stepping
{
    private const int Records = 10_000;
    private const int Answers = 500;

    private static readonly Goal Quick = Goal.Below(50);

    public static IEnumerable<Figure> Measure()
    {
        foreach (var (name, image) in new[] { ("patches", Patches(new Random(1), 24)), ("sheets", Patches(new Random(2), 256)) })
        {
            var stepper = new Stepper(image, Examples.WidePlotter.Grid);
            while (stepper.Record() is not null)
            {
            }

            var random = new Random(3);
            var all = stepper.Ticks;
            yield return OfWorst($"step {name}, on", stepper, () => (random.Next(2) == 0 ? stepper.Cell() : stepper.Record()) is not null);
            yield return OfWorst($"step {name}, back", stepper, () => BackByOne(stepper, random));
            stepper.RunTo(_ => false);
            yield return OfWorst($"step {name}, anywhere", stepper, () => BackAnywhere(stepper, random, all));
        }

        foreach (var figure in OfMock())
            yield return figure;
    }

    private static bool BackByOne(Stepper stepper, Random random)
    {
        if (random.Next(2) == 0)
            stepper.BackRecords(1);
        else
            stepper.BackToTicks(Math.Max(0, stepper.Ticks - 1));
        return true;
    }

    // From the job's end, each time a little further back to anywhere before it.
    private static bool BackAnywhere(Stepper stepper, Random random, long all)
    {
        stepper.BackToTicks(Math.Max(0, stepper.Ticks - random.NextInt64(2 * all / Answers)));
        return true;
    }

    // Each sample is the longest of fifty answers: the step, and all that is shown of the place.
    private static Figure OfWorst(string name, Stepper stepper, Func<bool> step)
    {
        const int Together = 50;
        if (stepper.Stop.IsComplete && name.EndsWith(", on", StringComparison.Ordinal))
            stepper.BackToTicks(stepper.Ticks / 2);
        var samples = Enumerable.Range(0, Answers / Together).Select(_ => Enumerable.Range(0, Together).Max(_ => Figure.Seconds(() =>
        {
            step();
            Look(stepper);
        }) * 1000));
        return new Figure(name, "ms at most", Quick, [.. samples]);
    }

    private static void Look(Stepper stepper)
    {
        var stop = stepper.Stop;
        var worked = 0;
        for (var y = 0; y < stepper.Grid.Y; y++)
            for (var x = 0; x < stepper.Grid.X; x++)
                worked += stepper.Picture.Has(new Cell(x, y), Head.A) ? 1 : 0;
        if (worked > stop.Cells.A)
            throw new InvalidOperationException("The picture has more cells than were worked.");
    }

    private static IEnumerable<Figure> OfMock()
    {
        const int Steps = 100;
        var machine = Examples.WidePlotter;
        using var mock = new MockStepping(machine, seed: 1);
        var stepper = new Stepper(Patches(new Random(1), 24), machine.Grid);
        Must(mock.BeginAsync());
        var (on, back) = (new List<double>(), new List<double>());
        for (var step = 0; step < Steps; step++)
        {
            for (var record = 0; record < 3; record++)
                on.Add(1000 * Figure.Seconds(() => Must(mock.FollowAsync(stepper.Record()!.Value, stepper.Ticks))));
            back.Add(1000 * Figure.Seconds(() =>
            {
                stepper.BackRecords(1);
                Must(mock.BackAsync(stepper.Stop.Position, stepper.Ticks));
            }));
        }

        yield return new Figure("step patches, mock on", "ms", Quick, on);
        yield return new Figure("step patches, mock back", "ms", Quick, back);

        void Must(Task<bool> done)
        {
            if (!done.GetAwaiter().GetResult())
                throw new InvalidOperationException(mock.Trouble);
        }
    }

    private static Image Patches(Random random, int cells)
    {
        var width = Examples.WidePlotter.Width;
        var records = Enumerable.Range(0, Records - 1).Select(_ =>
        {
            var (cellsX, cellsY) = (random.Next(cells * 3 / 4, cells) + 1, random.Next(cells * 3 / 4, cells) + 1);
            return Record.Patch(Head.A, new Cell(random.Next(width.Places - cellsX + 1), random.Next(width.Places - cellsY + 1)), cellsX, cellsY, default);
        });
        return Image.Of(width, [.. records, Record.End]);
    }
}

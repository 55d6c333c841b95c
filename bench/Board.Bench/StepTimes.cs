using Board.Emulator;
using Bridge.Jobs;

namespace Board.Bench;

/// <summary>Whether steps come when they should, seen on the pins.</summary>
internal static class StepTimes
{
    private const double Acceleration = 240_000;
    private const double LoadedStepsPerSecond = 12_000;

    public static IEnumerable<Figure> Measure()
    {
        yield return OfRate("one axis", 40_000, new Cell(15, 0), loadSeed: null);
        yield return OfRate("two axes", 25_000, new Cell(15, 15), loadSeed: null);
        yield return OfRate("one axis, line full", 40_000, new Cell(15, 0), loadSeed: 3);
        yield return OfRate("two axes, line full", 25_000, new Cell(15, 15), loadSeed: 3);
        foreach (var figure in OfLoadedMove())
            yield return figure;
    }

    /// <summary>The rate that is reached in a move that succeeds.</summary>
    private static Figure OfRate(string what, double stepsPerSecond, Cell to, int? loadSeed)
    {
        var steps = StepsOfMove(stepsPerSecond, to, loadSeed, out _);
        var middle = steps.Skip(steps.Count / 3).Take(steps.Count / 3).ToList();
        var rate = middle.Count < 2 ? 0 : (middle.Count - 1) * (double)AvrChip.FrequencyHz / (middle[^1] - middle[0]);
        return new Figure($"step rate, {what}", Math.Round(rate), "steps/s", Math.Floor(stepsPerSecond * 0.999), IsLeast: true, $"{steps.Count} steps");
    }

    private static IEnumerable<Figure> OfLoadedMove()
    {
        var steps = StepsOfMove(LoadedStepsPerSecond, new Cell(15, 11), loadSeed: 3, out var moving);
        using (moving)
        {
            yield return new Figure("step time error at constant speed", ErrorAtTopUs(steps), "us", 2,
                Note: $"{LoadedStepsPerSecond} steps/s, two axes, line full");
            yield return new Figure("profile against c_n from the third step", WorstOfProfile(steps), "%", 1.5);
            yield return new Figure("octets waiting for the receive interrupt", moving.Board.Chip.Serial.MostWaiting, "octets", AvrSerial.ReceiverHolds);
            moving.Load!.Finish();
            moving.Board.Chip.RunFor(TimeSpan.FromMilliseconds(20));
            moving.Host.Listen(TimeSpan.FromMilliseconds(150));
            // After a lost frame no later one is counted, and every Status says that there is a gap.
            var isLost = moving.Host.Heard.Any(status => status.Gap) || moving.Host.LastNumber != moving.Load.NextNumber;
            yield return new Figure("frames lost for lack of time", isLost ? 1 : 0, "or more", 0,
                Note: $"{LoadedStepsPerSecond} steps/s, two axes, {moving.Load.Frames} frames sent, {moving.Host.Heard.Count} answers");
            yield return new Figure("stack never touched", moving.Board.Stack.Untouched, "octets", 200, IsLeast: true);
        }
    }

    private static List<ulong> StepsOfMove(double stepsPerSecond, Cell to, int? loadSeed, out MovingBoard moving)
    {
        moving = MovingBoard.Start(stepsPerSecond, to, loadSeed);
        var gantry = moving.Board.Gantry;
        var steps = new List<ulong>();
        var isOnWayBack = false;
        gantry.Stepped += step =>
        {
            if (step.Axis != 0)
                return;
            isOnWayBack = !step.Up;
            if (step.Up)
                steps.Add(step.Cycle);
        };
        var wanted = to.X * 800;
        // The first steps may have been made before anyone looked; those of the next way out are whole.
        moving.Board.Chip.RunUntil(() => isOnWayBack || !gantry.AreDriversOn, TimeSpan.FromSeconds(4));
        steps.Clear();
        moving.Board.Chip.RunUntil(() => steps.Count >= wanted || !gantry.AreDriversOn, TimeSpan.FromSeconds(8));
        return steps;
    }

    /// <summary>Half of the way between the earliest and the latest step, against a ruler whose marks are exactly one interval apart.</summary>
    private static double ErrorAtTopUs(List<ulong> steps)
    {
        var interval = AvrChip.FrequencyHz / LoadedStepsPerSecond;
        var rising = (int)(LoadedStepsPerSecond * LoadedStepsPerSecond / (2 * Acceleration));
        var top = steps.Skip(rising + 100).SkipLast(rising + 100).ToList();
        if (top.Count < 100)
            return double.PositiveInfinity;
        var errors = top.Select((cycle, index) => cycle - (double)top[0] - index * interval).ToList();
        return (errors.Max() - errors.Min()) / 2 / (AvrChip.FrequencyHz / 1e6);
    }

    /// <summary>c_n = c_0 (sqrt(n + 1) - sqrt(n)) with c_0 = sqrt(2 / acceleration) (Austin 2005), in percent.</summary>
    private static double WorstOfProfile(List<ulong> steps)
    {
        const int third = 3;
        var first = Math.Sqrt(2 / Acceleration) * AvrChip.FrequencyHz;
        var rising = (int)(LoadedStepsPerSecond * LoadedStepsPerSecond / (2 * Acceleration));
        if (steps.Count < rising)
            return double.PositiveInfinity;
        return Enumerable.Range(third, rising - third - 1).Max(n =>
        {
            var ideal = first * (Math.Sqrt(n + 1) - Math.Sqrt(n));
            return Math.Abs(steps[n] - steps[n - 1] - ideal) / ideal * 100;
        });
    }
}

using Board.Emulator;
using Bridge.Jobs;

namespace Board.Bench;

/// <summary>How late the last step is after a stop: the board is taken back to one moment after another of a fast move along two axes, with its line full.</summary>
internal static class Latencies
{
    private const double StepsPerSecond = 21_300;
    private const int TrialsAMoment = 50;
    private const int Seed = 7;
    private const uint Octet = AvrSerial.OctetCycles;
    private const ulong LongAfter = 20_000;

    public static IEnumerable<Figure> Measure(int trials)
    {
        yield return OfEStop(trials);
        yield return OfStopOctets(trials);
        yield return OfEndstop(trials);
    }

    private static Figure OfEStop(int trials)
    {
        var worst = Worst(trials, (moving, random) =>
        {
            var opened = moving.Board.Chip.Cycle + (ulong)random.Next(2000);
            moving.Board.Chip.At(opened, () => moving.Board.Gantry.SetEStop(true));
            moving.Board.Chip.RunTo(opened + LongAfter);
            return Late(moving, opened);
        });
        return new Figure("e-stop edge to last step edge", worst, "us", 10, Note: $"{trials} trials");
    }

    private static Figure OfStopOctets(int trials)
    {
        var worst = Worst(trials, (moving, random) =>
        {
            moving.Load!.Stop((uint)random.Next((int)Octet));
            ulong ended = 0;
            moving.Board.Chip.Serial.Arrived += Note;
            moving.Board.Chip.RunTo(moving.Board.Chip.Cycle + 4 * Octet + LongAfter);
            moving.Board.Chip.Serial.Arrived -= Note;
            return Late(moving, ended);

            void Note(byte octet) => ended = moving.Board.Chip.Cycle;
        });
        return new Figure("second STOP octet's stop bit to last step edge", worst, "us", 30, Note: $"{trials} trials");
    }

    private static Figure OfEndstop(int trials)
    {
        var worst = Worst(trials, (moving, random) =>
        {
            var axis = random.Next(2);
            moving.Board.Gantry.CloseEndstopAfter(axis, random.Next(1, 40));
            if (!moving.Board.Chip.RunUntil(() => !moving.Board.Gantry.AreDriversOn, TimeSpan.FromSeconds(1)))
                throw new InvalidOperationException("The board does not stop at a closed endstop.");
            moving.Board.Chip.RunFor(TimeSpan.FromMilliseconds(1));
            return moving.Board.Gantry.Axes[axis].StepsIntoEndstop;
        });
        return new Figure("steps made into a closed endstop", worst, "steps", 0, Note: $"{trials} trials");
    }

    private static double Late(MovingBoard moving, ulong since)
    {
        var gantry = moving.Board.Gantry;
        if (gantry.AreDriversOn)
            throw new InvalidOperationException("The board does not stop.");
        return gantry.LastStep < since ? 0 : AvrChip.Microseconds(gantry.LastStep - since + AvrChip.InterruptEntryCycles);
    }

    private static double Worst(int trials, Func<MovingBoard, Random, double> trial)
    {
        var random = new Random(Seed);
        using var moving = MovingBoard.Start(StepsPerSecond, new Cell(15, 11), Seed);
        moving.Board.Chip.RunFor(TimeSpan.FromMilliseconds(3));
        var worst = 0.0;
        for (var done = 0; done < trials; done++)
        {
            if (done % TrialsAMoment == 0)
                moving.Board.Chip.RunFor(TimeSpan.FromMicroseconds(random.Next(200, 3000)));
            var moment = moving.Board.Chip.Snapshot();
            worst = Math.Max(worst, trial(moving, random));
            moment.Restore();
        }
        return worst;
    }
}

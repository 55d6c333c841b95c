using Bridge.Jobs;
using Bridge.Wire;

namespace Bridge.Panel.Tests;

/// <summary>Stop and Abort that come as a run ends, asked for at each moment there is.</summary>
public sealed class RunAtRestTests
{
    [Fact]
    public async Task An_Abort_that_is_taken_leaves_the_motors_off_also_where_the_run_has_ended()
    {
        foreach (var moment in Moments(await Ended(int.MaxValue, MachineCommand.Abort)))
        {
            var ended = await Ended(moment, MachineCommand.Abort);
            Assert.True(ended.State == MachineState.Aborted || !ended.IsTaken, $"It is {ended.State}, though Abort was taken at look {moment}.");
        }
    }

    [Fact]
    public async Task A_Stop_as_the_run_ends_keeps_the_machine_from_looking_for_its_zero()
    {
        var whole = await Ended(int.MaxValue, MachineCommand.Stop);
        Assert.Contains(whole.Told, words => words.StartsWith("Lost steps: X off by 0", StringComparison.Ordinal));
        for (var moment = 0; moment < 12; moment++)
        {
            var ended = await Ended(moment, MachineCommand.Stop);
            Assert.True(ended.IsTaken);
            Assert.DoesNotContain(ended.Told, words => words.StartsWith("Lost steps: ", StringComparison.Ordinal));
            Assert.NotEqual(MachineState.Idle, ended.State);
        }
    }

    // All of the first and of the last, and some of the many between them.
    private static IEnumerable<int> Moments(RunThatEnded whole) =>
        Enumerable.Range(0, whole.Looks).Where(look => look < 20 || look > whole.Looks - 10 || look % (whole.Looks / 12) == 0);

    /// <summary>Runs a job, after which a machine looks for its zero, and asks something at a moment: the looks at the clock are counted from when the run's
    /// end is known.</summary>
    private static async Task<RunThatEnded> Ended(int moment, MachineCommand command)
    {
        using var desks = new WatchedDesks("/dev/ttyTEST");
        using var jobs = new JobDesk(desks.Machine, TimeProvider.System);
        var image = Image.Of(desks.Machine.Width, [Record.Row(RecordWidth.Four, Head.A, new Cell(1, 1), 0, 3), Record.End]);
        var job = await jobs.ReadAsync(new JobFile(desks.Machine.Grid, desks.Machine.Digest, image).ToBytes(), "line.job");
        var (looks, isTaken, hasEnded) = (0, false, false);
        desks.Looked = () =>
        {
            TryEStop(desks);
            hasEnded |= desks.Board.Present.State == "Complete";
            if (hasEnded && looks++ == moment)
                isTaken = desks.Runs.TryCommand(command);
        };
        Assert.Null(await desks.Runs.TryStartAsync(job!, new RunWish("device", false, "Ida", desks.Answers, MeasureLost: true)));
        await WatchedDesks.Until(() => desks.Occupancy.By is null, () => "The run never ends.");
        return new RunThatEnded(desks.State, looks, isTaken, [.. desks.Board.ToldAfter(0).Select(told => told.Words)]);
    }

    private static void TryEStop(WatchedDesks desks)
    {
        var told = desks.Board.ToldAfter(0);
        if (told.Count == 0 || desks.Devices.Last is not { } device)
            return;
        if (told[^1].Words.StartsWith("Press the e-stop now", StringComparison.Ordinal))
            device.ByHand(machine => machine.Gantry.PressEStop());
        else if (told[^1].Words.StartsWith("Seen open", StringComparison.Ordinal))
            device.ByHand(machine => machine.Gantry.ReleaseEStop());
    }

    private sealed record RunThatEnded(MachineState State, int Looks, bool IsTaken, IReadOnlyList<string> Told);
}

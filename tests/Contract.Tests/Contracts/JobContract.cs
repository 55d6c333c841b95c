using Bridge.Jobs;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>Whole random jobs: the same cells in the same order, exact steps, the time that was predicted.</summary>
public abstract class JobContract(DeviceMaker make)
{
    private const int Seeds = 40;

    public static TheoryData<int> AllSeeds => [.. Enumerable.Range(1, Seeds)];

    [ContractTheory]
    [ManyRows(nameof(AllSeeds))]
    public void A_random_job_works_its_cells_in_order_with_exact_steps_in_the_time_predicted(int seed)
    {
        var job = RandomJob.Of(seed);
        var records = Jobs.Unrolled(job.Machine, job.Records);
        using var device = make(job.Machine, seed);
        var host = new Host(device, job.Machine);
        host.GetReady();
        var before = StepsOf(device, job.Machine);
        var seconds = host.Run(records);
        Assert.Equal(Jobs.CellsOf(job.Machine, job.Records), host.Worked);
        var predicted = Jobs.SecondsOf(job.Machine, job.Records) + device.SecondsToPlanAnAct * Jobs.ActsOf(job.Machine, job.Records);
        Assert.InRange(seconds, 0.99 * predicted - 0.005, 1.01 * predicted + 0.005);
        if (before is not null)
            Assert.Equal(StepCount.Of(job.Machine, job.Records)[..before.Length], StepsOf(device, job.Machine)!.Zip(before, (now, then) => now - then));
        Assert.Equal(0, device.Wrongs);
        Assert.Equal((StateCause.JobComplete, (uint)records.Length), (host.Last.Cause, host.Last.RecordsDone));
    }

    /// <summary>A canary: the comparison above must see a wrong tie.</summary>
    [ContractFact]
    public void A_tie_of_a_line_taken_the_other_way_is_seen()
    {
        var isSeen = false;
        for (var seed = 1; seed <= 5 && !isSeen; seed++)
        {
            var job = RandomJob.Of(seed);
            using var device = make(job.Machine, seed);
            var host = new Host(device, job.Machine);
            host.GetReady();
            host.Run(Jobs.Unrolled(job.Machine, job.Records));
            Assert.Equal(WrongTie.CellsOf(job.Machine, job.Records, isWrong: false), host.Worked);
            isSeen = !WrongTie.CellsOf(job.Machine, job.Records, isWrong: true).SequenceEqual(host.Worked);
        }

        Assert.True(isSeen, "no job has a line with a tie");
    }

    private static long[]? StepsOf(IDeviceUnderTest device, Bridge.Jobs.Machine machine)
    {
        AxisName[] axes = machine.Z is null ? [AxisName.X, AxisName.Y] : [AxisName.X, AxisName.Y, AxisName.Z];
        var steps = axes.Select(device.StepsOf).ToArray();
        return steps.All(count => count is not null) ? [.. steps.Select(count => count!.Value)] : null;
    }
}

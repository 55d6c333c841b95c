using Bridge.Runs;
using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>A job that is got done in as many attempts as it takes, each with its faults; then the last look at everything.</summary>
internal sealed class WholeRun(BoardLibrary library, int seed, Func<int, Random, FaultPlan> plans)
{
    // By then no faults come any more.
    private const int MostAttempts = 16;

    /// <summary>Faults in the first attempts from the seed, then none.</summary>
    public static FaultPlan FromSeed(int attempt, Random random) => attempt < 4 && random.Next(3) > 0 ? FaultPlan.Of(random) : FaultPlan.None;

    /// <summary>The job of a seed.</summary>
    public static SimulatedJob JobOf(int seed) => SimulatedJob.Of(new Random(seed).Next());

    /// <summary>A defect in the host.</summary>
    public Plant Plant { get; init; }

    /// <summary>Attempts that it took.</summary>
    public int Attempts { get; private set; }

    /// <summary>The attempts of which all faults struck, from 0.</summary>
    public HashSet<int> Struck { get; } = [];

    /// <summary>How often the noise of the lines struck.</summary>
    public int Damages { get; private set; }

    /// <summary>What the board told of itself.</summary>
    public IReadOnlySet<StateCause> Causes { get; private set; } = new HashSet<StateCause>();

    /// <summary>How the runs ended that were not cut off.</summary>
    public IReadOnlySet<RunOutcome> Outcomes { get; private set; } = new HashSet<RunOutcome>();

    /// <summary>Makes it; gives what was seen that must never be, or null.</summary>
    public string? Make(List<string>? story = null)
    {
        try
        {
            var random = new Random(seed);
            using var world = new World(library, SimulatedJob.Of(random.Next()), random.Next()) { Story = story, Plant = Plant };
            (Causes, Outcomes) = (world.Watch.Causes, world.Outcomes);
            ToEnd(world, random);
            return null;
        }
        catch (SimulationFailedException failure)
        {
            return failure.Message;
        }
        catch (Exception error)
        {
            return error.ToString(); // a seed that ends so is to be played again like any other
        }
    }

    private void ToEnd(World world, Random random)
    {
        for (Attempts = 1; Attempts <= MostAttempts; Attempts++)
        {
            var plan = Attempts <= MostAttempts / 2 ? plans(Attempts - 1, random) : FaultPlan.None;
            world.Tell($"attempt {Attempts}, board {world.Board.State}: {string.Join(", ", plan.Faults)} to board {plan.ToBoard} to host {plan.ToHost}");
            var isComplete = new Attempt(world, plan, (ushort)Attempts, redoes: random.Next(2) == 0).Make();
            if (world.AllStruck)
                Struck.Add(Attempts - 1);
            Damages = world.Damages;
            world.LetPass(random.Next(3) == 0 ? random.Next(5_000_000) : random.Next(200_000));
            if (isComplete)
                break;
        }

        Fail.If(Attempts > MostAttempts, $"the job does not get done, with no fault any more");
        world.LetPass(1_000_000);
        Fail.If(world.Watch.Truth != world.Job.InOrder.Count, $"{world.Watch.Truth} of {world.Job.InOrder.Count} cells are worked");
        world.Watch.Workings.Close();
    }
}

namespace Simulation.Tests;

/// <summary>A failure says how to play it again, however it came about.</summary>
public class RetoldTests
{
    private const int MostSeeds = 1000;

    [SimulationFact]
    public void A_seed_that_fails_by_an_exception_says_how_to_play_it_again()
    {
        var seed = Enumerable.Range(0, MostSeeds).First(seed => SeedTests.RunOf(seed, Plant.RefusesJournal).Make() is not null);
        Assert.StartsWith("Bridge.Jobs.RefusedException", SeedTests.RunOf(seed, Plant.RefusesJournal).Make(), StringComparison.Ordinal);
        Assert.Contains($"\nAgain: BRIDGE_SIMULATION='{seed}' dotnet test", SeedTests.Told(seed, "it failed", Plant.RefusesJournal), StringComparison.Ordinal);
    }

    [SimulationFact]
    public void A_step_of_a_sweep_that_fails_by_an_exception_says_how_to_play_it_again()
    {
        var sweep = new Sweep(Trigger.JournalWrite, Strike.DieAfterWrite) { Plant = Plant.RefusesJournal };
        var swept = Assert.Single(Swept.Of(sweep, seed: 1, only: 3).Failures);
        Assert.Contains("RefusedException", swept, StringComparison.Ordinal);
        Assert.Contains("\nAgain: BRIDGE_SWEEP='1/3/JournalWrite DieAfterWrite 0' dotnet test", swept, StringComparison.Ordinal);
    }
}

using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>Planted defects that the simulation must catch: else it would not catch real ones.</summary>
public class CanaryTests(ITestOutputHelper output)
{
    private const int MostSeeds = 1000;

    /// <summary>A defect in the firmware's core: its name, the file, what stands there, and what is put in its place.</summary>
    public static TheoryData<string, string, string, string> Defects => new()
    {
        { "a-link-that-does-not-check-sequence", "core/link.c", "if (number == link->expected) {", "if (number != link->expected + 256) {" },
        { "one-credit-too-many", "core/run.c", "(QUEUE_RECORDS - board->queue.count)", "(QUEUE_RECORDS + 1 - board->queue.count)" },
        { "a-silent-line-does-not-hold", "core/control.c", "control_stop_for_line(board, CAUSE_LINE_SILENT);", "board->heard_ms = board->now_ms;" },
        { "a-new-session-goes-on-in-motion", "core/hear.c", "control_stop_for_line(board, CAUSE_HOST_RESTARTED);", "board->heard_ms = board->now_ms;" },
        { "a-stop-is-not-seen-ahead", "core/receive.c", "receive->stop_is_ahead = true;\n    }\n    return stop;", "}\n    return stop;" },
        { "no-check-sequence", "core/frame.c", "decoder->fcs == FCS_GOOD", "decoder->length > 0" },
    };

    [SimulationTheory]
    [MemberData(nameof(Defects))]
    public void A_defect_planted_in_the_firmware_is_caught(string name, string file, string text, string defect)
    {
        var library = new BoardLibrary(BoardSource.BuildWithDefect(name, file, text, defect));
        Assert.Contains(name, Caught(name, seed => new WholeRun(library, seed, WholeRun.FromSeed)), StringComparison.Ordinal);
    }

    [SimulationFact]
    public void Damage_that_the_check_sequence_does_not_see_is_caught()
    {
        var plan = new FaultPlan { ToBoard = new Noise { Forged = 0.1 } };
        Caught("forged frames", seed => new WholeRun(BoardLibrary.AsItIs, seed, (attempt, _) => attempt == 0 ? plan : FaultPlan.None));
    }

    private string Caught(string name, Func<int, WholeRun> run)
    {
        for (var seed = 0; seed < MostSeeds; seed++)
            if (run(seed).Make() is { } what)
            {
                output.WriteLine($"{name}: caught by seed {seed}: {what.Split('\n')[0]}");
                return $"{name}: {what}";
            }

        throw new InvalidOperationException($"{name} was not caught by {MostSeeds} seeds.");
    }
}

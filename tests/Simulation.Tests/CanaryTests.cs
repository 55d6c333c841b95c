using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>Planted defects that the simulation must catch, each by what it does wrong: else it would not catch real ones.</summary>
public class CanaryTests(ITestOutputHelper output)
{
    private const int MostSeeds = 1000;

    /// <summary>A defect in the firmware's core: its name, the file, what stands there, what is put in its place, and words of what is then seen.</summary>
    public static TheoryData<string, string, string, string, string> Defects => new()
    {
        { "a-link-that-does-not-check-sequence", "core/link.c", "if (number == link->expected) {", "if (number != link->expected + 256) {", "was due" },
        { "one-credit-too-many", "core/run.c", "(QUEUE_RECORDS - board->queue.count)", "(QUEUE_RECORDS + 1 - board->queue.count)", "was due" },
        { "a-silent-line-does-not-hold", "core/control.c", "control_stop_for_line(board, CAUSE_LINE_SILENT);", "board->heard_ms = board->now_ms;", "it moves though it has heard nothing" },
        { "a-new-session-goes-on", "core/hear.c", "control_stop_for_line(board, CAUSE_HOST_RESTARTED);", "board->heard_ms = board->now_ms;", "it goes on by itself" },
        { "no-check-sequence", "core/frame.c", "decoder->fcs == FCS_GOOD", "decoder->length > 0", "it stepped against the frame" },
        { "a-pen-that-stays-up", "core/acts.c", "    board->acts.job_pen_down = true;\n    set_head(board, true);", "    board->acts.job_pen_down = true;", "with its pen up" },
    };

    /// <summary>Defects of the firmware that only who asks for STOP can see.</summary>
    public static TheoryData<string, string, string, string, string> DefectsOfStop => new()
    {
        { "a-stop-that-is-not-heard", "core/receive.c", "bool stop = octet == FRAME_RESERVED && receive->before == FRAME_RESERVED;", "bool stop = false;", "STOP was said" },
        { "a-stop-that-is-not-seen-ahead", "core/receive.c", "receive->stop_is_ahead = true;\n    }\n    return stop;", "}\n    return stop;", "and it is Stopped" },
    };

    [SimulationTheory]
    [MemberData(nameof(Defects))]
    public void A_defect_planted_in_the_firmware_is_caught(string name, string file, string text, string defect, string seen)
    {
        var library = new BoardLibrary(BoardSource.BuildWithDefect(name, file, text, defect));
        IsCaught(name, seen, seed => new WholeRun(library, seed, WholeRun.FromSeed));
    }

    [SimulationTheory]
    [MemberData(nameof(DefectsOfStop))]
    public void A_defect_of_its_stop_is_caught(string name, string file, string text, string defect, string seen)
    {
        var library = new BoardLibrary(BoardSource.BuildWithDefect(name, file, text, defect));
        IsCaught(name, seen, seed => new WholeRun(library, seed, Asking(Strike.Abort, most: 60))); // a Clear is sent early
    }

    [SimulationFact]
    public void Damage_that_the_check_sequence_does_not_see_is_caught()
    {
        var plan = new FaultPlan { ToBoard = new Noise { Forged = 0.1 } };
        IsCaught("forged frames", "it stepped against the frame", seed => new WholeRun(BoardLibrary.AsItIs, seed, (attempt, _) => attempt == 0 ? plan : FaultPlan.None));
    }

    [SimulationFact]
    public void A_host_that_forgets_what_its_operator_asked_is_caught() => IsCaught("requests that are lost", "it was asked to Stop",
        seed => new WholeRun(BoardLibrary.AsItIs, seed, Asking(Strike.Stop, most: 400)) { Plant = Plant.RequestsAreLost });

    [SimulationFact]
    public void A_journal_that_has_not_what_it_calls_written_is_caught() => IsCaught("entries that are lost", "journal, line",
        seed => new WholeRun(BoardLibrary.AsItIs, seed, WholeRun.FromSeed) { Plant = Plant.EntriesAreLost });

    private static Func<int, Random, FaultPlan> Asking(Strike what, int most) => (attempt, random) =>
        attempt == 0 ? new FaultPlan { Faults = [new Fault(Trigger.Turn, 1 + random.Next(most), what)] } : FaultPlan.None;

    private void IsCaught(string name, string seen, Func<int, WholeRun> run)
    {
        for (var seed = 0; seed < MostSeeds; seed++)
            if (run(seed).Make() is { } what)
            {
                output.WriteLine($"{name}: caught by seed {seed}: {what.Split('\n')[0]}");
                Assert.Contains(seen, what, StringComparison.Ordinal);
                return;
            }

        Assert.Fail($"{name} was not caught by {MostSeeds} seeds.");
    }
}

using Xunit.Abstractions;

namespace Simulation.Tests;

/// <summary>Planted defects that the simulation must catch, each by what it does wrong: else it would not catch real ones.</summary>
public class CanaryTests(ITestOutputHelper output)
{
    private const int MostSeeds = 1000;

    private static readonly Defect[] All =
    [
        new("a link that does not check sequence", "core/link.c",
            "if (number == link->expected) {", "if (number != link->expected + 256) {", "the board refused records that were sent in order"),
        new("one credit too many", "core/run.c",
            "(QUEUE_RECORDS - board->queue.count)", "(QUEUE_RECORDS + 1 - board->queue.count)", "was due"),
        new("a silent line does not hold", "core/control.c",
            "control_stop_for_line(board, CAUSE_LINE_SILENT);", "board->heard_ms = board->now_ms;", "it moves though it has heard nothing"),
        new("a new session goes on", "core/hear.c",
            "control_stop_for_line(board, CAUSE_HOST_RESTARTED);", "board->heard_ms = board->now_ms;", "it goes on by itself"),
        new("no check sequence", "core/frame.c",
            "decoder->fcs == FCS_GOOD", "decoder->length > 0", "it stepped against the frame"),
        new("a pen that stays up", "core/acts.c",
            "    board->acts.job_pen_down = true;\n    set_head(board, true);", "    board->acts.job_pen_down = true;", "with its pen up"),
        new("a STOP that is not heard", "core/receive.c",
            "bool stop = octet == FRAME_RESERVED && receive->before == FRAME_RESERVED;", "bool stop = false;", "STOP was said") { IsOfStop = true },
        new("a STOP that is not seen ahead", "core/receive.c",
            "receive->stop_is_ahead = true;\n    }\n    return stop;", "}\n    return stop;", "and it is Stopped") { IsOfStop = true },
    ];

    public static TheoryData<string> Names => [.. All.Select(defect => defect.Name)];

    [SimulationTheory]
    [MemberData(nameof(Names))]
    public void A_defect_planted_in_the_firmware_is_caught(string name)
    {
        var defect = All.Single(defect => defect.Name == name);
        var library = new BoardLibrary(BoardSource.BuildWithDefect(name.Replace(' ', '-'), defect.File, defect.Text, defect.Planted));
        IsCaught(name, defect.Seen, seed => new WholeRun(library, seed, defect.IsOfStop ? Asking(Strike.Abort, most: 60) : WholeRun.FromSeed));
    }

    [SimulationFact]
    public void Damage_that_the_check_sequence_does_not_see_is_caught()
    {
        var plan = new FaultPlan { ToBoard = new Noise { Forged = 0.1 } };
        IsCaught("forged frames", "it stepped against the frame",
            seed => new WholeRun(BoardLibrary.AsItIs, seed, (attempt, _) => attempt == 0 ? plan : FaultPlan.None));
    }

    [SimulationFact]
    public void A_host_that_forgets_what_its_operator_asked_is_caught() => IsCaught("requests that are lost", "it was asked to Stop",
        seed => new WholeRun(BoardLibrary.AsItIs, seed, Asking(Strike.Stop, most: 400)) { Plant = Plant.RequestsAreLost });

    [SimulationFact]
    public void A_journal_that_has_not_what_it_calls_written_is_caught() => IsCaught("entries that are lost", "journal, line",
        seed => new WholeRun(BoardLibrary.AsItIs, seed, WholeRun.FromSeed) { Plant = Plant.EntriesAreLost });

    [SimulationTheory]
    [InlineData(nameof(Plant.ClaimsTooLittle), "cells of a machine at rest")]
    [InlineData(nameof(Plant.ClaimsTooMuch), "the journal claims")]
    [InlineData(nameof(Plant.LeavesOutARecord), "was never worked")]
    [InlineData(nameof(Plant.GoesOnByItself), "lets the machine go on, and nobody said so")]
    [InlineData(nameof(Plant.ResumesTooFar), "the run was to go on from")]
    [InlineData(nameof(Plant.SkipsForRedo), "the run was to go on from")]
    public void A_defect_planted_in_the_host_is_caught(string plant, string seen) =>
        IsCaught(plant, seen, seed => SeedTests.RunOf(seed, Enum.Parse<Plant>(plant)));

    private static Func<int, Random, FaultPlan> Asking(Strike what, int most) => (attempt, random) =>
        attempt == 0 ? new FaultPlan { Faults = [new Fault(Trigger.Turn, 1 + random.Next(most), what)] } : FaultPlan.None;

    private void IsCaught(string name, string seen, Func<int, WholeRun> run)
    {
        var otherwise = "";
        for (var seed = 0; seed < MostSeeds; seed++)
            if (run(seed).Make() is { } what)
            {
                output.WriteLine($"{name}: caught by seed {seed}: {what.Split('\n')[0]}");
                if (what.Contains(seen, StringComparison.Ordinal))
                    return;
                otherwise = $" Seed {seed} saw: {what}"; // what else the defect does
            }

        Assert.Fail($"{name}: that \"{seen}\" was not seen by {MostSeeds} seeds.{otherwise}");
    }

    /// <summary>A defect of the firmware's core.</summary>
    /// <param name="Name">What it is.</param>
    /// <param name="File">Its file.</param>
    /// <param name="Text">What stands there.</param>
    /// <param name="Planted">What is put in its place.</param>
    /// <param name="Seen">Words of what is then seen.</param>
    private sealed record Defect(string Name, string File, string Text, string Planted, string Seen)
    {
        /// <summary>Whether only who asks for STOP can see it: in the first turns, among which a Clear is sent.</summary>
        public bool IsOfStop { get; init; }
    }
}

using System.CommandLine;
using System.Globalization;
using Bridge.History;

namespace Bridge.Cli;

/// <summary>bridge compare: two runs against one another.</summary>
internal static class CompareCommand
{
    public static Command Make(Report report)
    {
        var one = Arguments.Run();
        var other = Arguments.Run("OTHER", "The folder of the run that it is held against.");
        var command = new ExampleCommand("compare",
            "Hold two runs against one another: where they differ first, in what, by how much, and whether their times differ by more than noise.",
            "bridge compare runs/2026-05-04T16-20-00Z-kite runs/2026-06-04T09-12-30Z-kite")
        {
            one, other,
        };
        command.SetAction(parsed => Compare(report, parsed.GetRequiredValue(one), parsed.GetRequiredValue(other)));
        return command;
    }

    private static int Compare(Report report, string onePath, string otherPath)
    {
        var (one, other) = (PastRun.Read(onePath), PastRun.Read(otherPath));
        foreach (var run in new[] { one, other }.Where(run => !run.Verification.IsWhole))
            report.Line($"Caution: {run.Name} is not whole: {run.Verification.Problems[0]}");
        var found = RunComparison.Of(one, other);
        report.Line(found.Differences.Count == 0 ? "They differ in nothing but their times." : $"They differ first in: {found.Differences[0].What}.");
        foreach (var difference in found.Differences)
        {
            report.Line($"{difference.What}:");
            report.Facts(("one", difference.One), ("other", difference.Other));
        }

        if (found.CellsNotTheSame is { } cells)
            report.Line(cells == 0 ? "They worked the same cells." : $"Their work differs in {Counted.Of(cells, "cell")}.");
        Times(report, found);
        return ExitCode.Done;
    }

    private static void Times(Report report, RunComparison found)
    {
        if (found.OneSeconds is not { } one || found.OtherSeconds is not { } other)
        {
            report.Line("Their times cannot be compared: they are not known to have the same job.");
            return;
        }

        report.Line(string.Create(CultureInfo.InvariantCulture,
            $"At work, for what both have done: {one:0.00} s and {other:0.00} s, a difference of {other - one:+0.00;-0.00;0.00} s."));
        report.Line(found.Test is not { } test
            ? $"Whether that is more than noise cannot be said: it takes {RunComparison.LeastStretches} stretches of 2 s."
            : string.Create(CultureInfo.InvariantCulture, $"Paired t test (NIST/SEMATECH e-Handbook, 7.3.1.1) of {test.Pairs} stretches: "
                + $"mean {test.Mean:+0.000;-0.000;0.000} s, deviation {test.Deviation:0.000} s, t = {test.T:0.00}, chance {test.Chance:0.###}: "
                + $"{(test.IsMoreThanNoise ? "more than noise" : "no more than noise")} at {PairedTest.Level:0.##}."));
    }
}

using System.CommandLine;
using Bridge.History;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>bridge verify: whether a run's folder is as the run left it.</summary>
internal static class VerifyCommand
{
    private const int MostProblems = 50;

    public static Command Make(Report report)
    {
        var run = Arguments.Run();
        var seal = new Option<string>("--seal")
        {
            Description = "The seal that the run named at its end, as it was written down elsewhere: what a changed folder cannot name again.",
            HelpName = "DIGITS",
        };
        seal.Validators.Add(written =>
        {
            if (written.Tokens is not [{ Value: var digits }] || digits.Length != JournalChain.Digits || !digits.All(char.IsAsciiHexDigit))
                written.AddError($"--seal: found {Shown.Of(string.Join(' ', written.Tokens))}; allowed: {JournalChain.Digits} hexadecimal digits.");
        });
        var command = new ExampleCommand("verify", "Find out whether the record of a run is as the run left it: every entry of its journal and every file.",
            "bridge verify runs/2026-05-04T16-20-00Z-kite")
        {
            run, seal,
        };
        command.SetAction(parsed => Verify(report, parsed.GetRequiredValue(run), parsed.GetValue(seal)));
        return command;
    }

    private static int Verify(Report report, string path, string? seal)
    {
        var found = Verification.Of(RunFolder.Open(path), seal);
        report.Facts(("entries", $"{found.Entries} that follow from one another"), ("seal", found.Seal ?? "none"));
        foreach (var problem in found.Problems.Take(MostProblems))
            report.Line($"Problem: {problem}");
        if (found.Problems.Count > MostProblems)
            report.Line($"And {Counted.Of(found.Problems.Count - MostProblems, "problem")} more.");
        report.Line(found.IsWhole
            ? $"Verified: the record is as the run left it.{(seal is null ? " (Give --seal to hold it against a seal that was kept elsewhere.)" : "")}"
            : $"Not verified: {Counted.Of(found.Problems.Count, "problem")}.");
        return found.IsWhole ? ExitCode.Done : ExitCode.Refused;
    }
}

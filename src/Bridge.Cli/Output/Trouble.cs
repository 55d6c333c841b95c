using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>What ends a command before its end, in words and as an exit code.</summary>
internal static class Trouble
{
    /// <summary>Does something; a refusal is told with what to do, and a bug of ours with an apology.</summary>
    public static async Task<int> CaughtAsync(Report report, Func<Task<int>> act)
    {
        try
        {
            return await act().ConfigureAwait(false);
        }
        catch (RefusedException refused)
        {
            report.Refused(refused);
            return ExitCode.Refused;
        }
        catch (Exception bug)
        {
            Apologize(report, bug);
            return ExitCode.Bug;
        }
    }

    private static void Apologize(Report report, Exception bug)
    {
        report.Problem($"Sorry, this is a mistake in Bridge and not in what you gave it: {bug.GetType().Name}: {bug.Message}");
        if (bug.StackTrace?.Split('\n')[0].Trim() is { Length: > 0 } place)
            report.Problem($"It came up {place}");
        report.Problem("If a machine was running, go and see that it has stopped; if it has not, press its e-stop. The run's folder tells how far it came.");
        report.Problem("Please report it with the files and the command line that you used.");
    }
}

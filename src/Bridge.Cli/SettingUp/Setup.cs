using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>A setup under way: the steps that are left, in their order, each explained, done and noted.</summary>
internal sealed class Setup(Report report, string machinePath, bool isMock, MachineHand hand, DeviceDialogue device, SetupProgress progress)
{
    private static readonly TimeSpan Interval = TimeSpan.FromMilliseconds(20);

    /// <summary>Where it is told.</summary>
    public Report Report => report;

    /// <summary>Whether there is no machine that hands could touch.</summary>
    public bool IsMock => isMock;

    /// <summary>The machine file.</summary>
    public string MachinePath => machinePath;

    /// <summary>The machine, by the file as it is now.</summary>
    public MachineHand Hand => hand;

    /// <summary>The dialogue with the device.</summary>
    public DeviceDialogue Device => device;

    /// <summary>The keys of the terminal.</summary>
    public HandKeys Keys { get; } = HandKeys.OfTerminal();

    /// <summary>Whether the person has asked for an end, or the machine cannot go on.</summary>
    public bool HasEnded => hand.IsInterrupted || hand.Trouble is not null;

    /// <summary>Does what is left, or one step once more; false where it came to no end.</summary>
    public async Task<bool> RunAsync(string? again)
    {
        if (again is not null)
            progress.Note(again, null);
        foreach (var step in SetupSteps.All.Where(step => again is null || step.Name == again))
        {
            if (progress.DoneAt(step.Name) is { } at)
            {
                report.Line($"{step.Title}: done on {at:yyyy-MM-dd}. --again {step.Name} does it once more.");
                continue;
            }

            report.Line();
            report.Heading(step.Title);
            report.Line(step.Why);
            if (!await step.DoAsync(this).ConfigureAwait(false) || HasEnded)
                return Leave(step);
            progress.Note(step.Name, TimeProvider.System.GetUtcNow());
        }

        report.Line();
        if (SetupSteps.All.FirstOrDefault(step => progress.DoneAt(step.Name) is null) is { } next)
            report.Line($"Done. The same command without --again goes on with: {next.Title}.");
        else
            report.Line("Set up. Plan a small job, rehearse it on the mock device, and watch its first run with a hand at the e-stop.");
        return true;
    }

    /// <summary>A line that the person types; null where they ask for an end, or the terminal is gone. The device is kept company meanwhile.</summary>
    public async Task<string?> AskAsync(string question)
    {
        report.Line(question);
        var reading = Task.Run(Console.ReadLine);
        while (!reading.IsCompleted && !HasEnded)
            await device.PassAsync(Interval).ConfigureAwait(false);
        return HasEnded ? null : (await reading.ConfigureAwait(false))?.Trim();
    }

    /// <summary>Whether the answer is yes; asked again until there is one.</summary>
    public async Task<bool> AskYesAsync(string question)
    {
        var answer = await AskAsync($"{question} (yes or no)").ConfigureAwait(false);
        while (answer is not null && answer.ToLowerInvariant() is not ("y" or "yes" or "n" or "no"))
            answer = await AskAsync("Type yes or no, then Enter.").ConfigureAwait(false);
        return answer is ['y' or 'Y', ..];
    }

    /// <summary>The machine file was changed: the machine is another, and has to be told and referenced anew.</summary>
    public void ReadAgain() => hand.Machine = MachineInput.Read(machinePath, out _);

    private bool Leave(SetupStep step)
    {
        report.Line($"Left at: {step.Title}. Nothing that was done is lost: the same command goes on here.");
        return false;
    }
}

using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>What a command that moves a machine by hand was told.</summary>
/// <param name="Machine">The machine file.</param>
/// <param name="Before">On which device, and what comes before it moves.</param>
internal sealed record HandOptions(string Machine, PreRun Before)
{
    /// <summary>The mock device or a port.</summary>
    public string Device => Before.Device;

    /// <summary>Nobody is there to answer or to press keys.</summary>
    public bool Unattended => Before.Unattended;
}

/// <summary>Opens a device for a person's hand, has what must come first done, and leaves the machine at rest whatever happens.</summary>
internal static class HandSession
{
    /// <summary>Connects, acts, and brings the machine to rest; the exit code tells how it went.</summary>
    /// <param name="report">Where it is told.</param>
    /// <param name="options">On what.</param>
    /// <param name="moves">Whether a motor may turn: then there are cautions, and somebody has to be there.</param>
    /// <param name="act">What is done; false where it could not be, and the hand has the words.</param>
    /// <param name="isLive">Whether the mock device lives in real time, for a person's keys; else its time passes at once.</param>
    public static async Task<int> RunAsync(
        Report report, HandOptions options, bool moves, Func<MachineHand, DeviceDialogue, Task<bool>> act, bool isLive = false)
    {
        var machine = MachineInput.Read(options.Machine, out _);
        var looked = moves ? BeReady(report, options, machine) : null;
        using var device = await DeviceOpening.OpenAsync(report, options.Device, machine, isFast: !isLive).ConfigureAwait(false);
        if (device is null)
            return ExitCode.Device;
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        var hand = new MachineHand(dialogue, machine);
        using var ends = new EndRequests(times => Interrupt(report, hand, moves, times), hand.Interrupt);
        var isDone = await hand.ConnectAsync(SessionToken.New()).ConfigureAwait(false) is not null
            && await IsReadyAsync(report, options, dialogue, looked).ConfigureAwait(false)
            && await act(hand, dialogue).ConfigureAwait(false);
        if (moves)
            await hand.StopAsync().ConfigureAwait(false);
        if (!isDone && hand.Trouble is { } trouble)
            report.Problem(trouble);
        return moves || !isDone ? CodeOf(isDone, hand) : ExitCode.Done;
    }

    private static ChecklistRecord? BeReady(Report report, HandOptions options, Machine machine)
    {
        JobRun.RefuseUnwatchedBoard(report, options.Device, options.Unattended);
        foreach (var line in Caution.Lines)
            report.Line(line);
        return options.Before.Ask(report, machine);
    }

    // What moves by hand is no run, but who looked at the machine is kept beside the runs.
    private static async Task<bool> IsReadyAsync(Report report, HandOptions options, DeviceDialogue device, ChecklistRecord? looked)
    {
        if (looked is null)
            return true;
        if (await options.Before.TryEStopAsync(report, device, looked).ConfigureAwait(false) is not { } whole)
            return false;
        whole.Save(RunFolder.MakeBeside(options.Before.Runs, "by-hand", whole.At));
        return true;
    }

    private static void Interrupt(Report report, MachineHand hand, bool moves, int times)
    {
        hand.Interrupt();
        if (!moves)
            return;
        report.Line(times == 1
            ? "Asked the machine to stop; Ctrl-C again asks it to stop at once, motors off."
            : "Asked the machine to stop at once, motors off.");
    }

    private static int CodeOf(bool isDone, MachineHand hand) => hand switch
    {
        { Status.State: Wire.MachineState.Aborted } when hand.IsInterrupted || !isDone => ExitCode.Aborted,
        { IsInterrupted: true } => ExitCode.Stopped,
        _ => isDone ? ExitCode.Done : ExitCode.Device,
    };
}

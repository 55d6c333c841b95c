using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>What comes before motion on a real machine: the checklist, item by item, and the e-stop, tried.</summary>
/// <param name="Device">The device as it was named.</param>
/// <param name="Runs">The folder of runs, where today's records are looked for.</param>
/// <param name="Checklist">A checklist file of the person's own; null for the program's.</param>
/// <param name="Unattended">Nobody is there to answer.</param>
internal sealed record PreRun(string Device, string Runs, string? Checklist, bool Unattended)
{
    private static readonly TimeSpan EStopPatience = TimeSpan.FromMinutes(2);

    private bool IsReal => Device != Cli.Device.MockName;

    /// <summary>Asks each item; null on the mock device, which moves nothing.</summary>
    /// <exception cref="RefusedException">The list is none, or an item was not answered with yes.</exception>
    public ChecklistRecord? Ask(Report report, Machine machine)
    {
        var list = Checklist is null ? Bridge.Runs.Checklist.Own : Bridge.Runs.Checklist.Read(Checklist);
        if (!IsReal)
            return null;
        var now = TimeProvider.System.GetLocalNow();
        var record = new ChecklistRecord { Machine = machine.Name, Device = Device, List = list.Digest, At = now };
        if (Unattended)
        {
            report.Line("Nobody is asked the checklist and the e-stop is not tried; the record says that nobody answered.");
            return record;
        }

        var isShort = ChecklistRecord.WasWholeToday(Runs, machine.Name, Device, list.Digest, now);
        report.Heading(isShort ? "Before it moves (this machine was looked over today):" : "Before it moves:");
        var who = AskName(report);
        var asked = list.Asked(isShort).ToList();
        var answers = asked.Select((item, index) => Answered(report, item, $"{index + 1} of {asked.Count}")).ToList();
        return record with { Operator = who, IsWhole = !isShort, Answers = answers };
    }

    /// <summary>Has the e-stop of a device tried where that is due, in a session of its own; null, and told, where it was not seen to open and close.</summary>
    public async Task<ChecklistRecord?> TryEStopAsync(Report report, Device device, Machine machine, ChecklistRecord record, ushort token)
    {
        if (Unattended)
            return record;
        var dialogue = new DeviceDialogue(device.Line, device.Time);
        if (await dialogue.OpenAsync(token).ConfigureAwait(false) is null || await dialogue.RestAsync(machine.TimeOuts.Answer).ConfigureAwait(false) is null)
        {
            report.Problem($"{dialogue.Trouble} Nothing was started.");
            return null;
        }

        return await TryEStopAsync(report, dialogue, record).ConfigureAwait(false);
    }

    /// <summary>The same in a session that is open.</summary>
    public async Task<ChecklistRecord?> TryEStopAsync(Report report, DeviceDialogue device, ChecklistRecord record)
    {
        var now = TimeProvider.System.GetLocalNow();
        if (Unattended || !EStopTrial.IsNeeded(device.Status!.Value, ChecklistRecord.WasEStopTriedToday(Runs, record.Machine, Device, now)))
            return record;
        var goesOn = true;
        using var ends = new EndRequests(_ => goesOn = false, () => goesOn = false);
        if (await EStopTrial.RunAsync(device, report.Line, EStopPatience, () => Volatile.Read(ref goesOn)).ConfigureAwait(false))
            return record with { EStopTried = TimeProvider.System.GetLocalNow() };
        if (device.Trouble is { } trouble)
            report.Problem(trouble);
        return null;
    }

    private static string AskName(Report report)
    {
        const int LongestName = 60;
        report.Line($"Who operates it? Enter alone for {Environment.UserName}.");
        var name = Console.ReadLine()?.Trim() ?? "";
        return name.Length == 0 ? Environment.UserName : name[..Math.Min(name.Length, LongestName)];
    }

    private static ChecklistAnswer Answered(Report report, ChecklistItem item, string number)
    {
        HandKeys.OfTerminal().Forget(); // what was typed before a question was seen is no answer to it
        report.Line($"{number}: {item.Ask}");
        report.Line($"  {item.Why} (yes or no)");
        for (var line = Console.ReadLine(); line is not null; line = Console.ReadLine())
            switch (line.Trim().ToLowerInvariant())
            {
                case "y" or "yes":
                    return new ChecklistAnswer(item.Id, item.Ask, TimeProvider.System.GetLocalNow());
                case "n" or "no":
                    throw Stopped(item, "no");
                default:
                    report.Line("Type yes or no, then Enter.");
                    break;
            }
        throw Stopped(item, "no answer");
    }

    private static RefusedException Stopped(ChecklistItem item, string answer) => new(
        $"checklist, {item.Id}", answer, "yes", "Nothing was started. See to it, then begin again.");
}

using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Panel;

/// <summary>What a page asks before a real machine moves.</summary>
/// <param name="IsNeeded">Whether anything is asked: not where there is only the mock device.</param>
/// <param name="IsWhole">Whether all of the list is asked; else this machine was looked over today.</param>
/// <param name="Items">What is asked, each to be answered with yes.</param>
/// <param name="EStop">tried today, to be tried, or not needed.</param>
/// <param name="AsksAgain">What moves once more after a complete run, if that is wished; null where nothing can.</param>
public sealed record ChecklistView(bool IsNeeded, bool IsWhole, IReadOnlyList<AskedView> Items, string EStop, string? AsksAgain);

/// <summary>One question.</summary>
public sealed record AskedView(string Id, string Ask, string Why);

/// <summary>Who says that a machine was looked over.</summary>
/// <param name="Operator">A name, 1 to 60 characters.</param>
/// <param name="Answers">The items that were answered with yes, in the order in which they were asked.</param>
public sealed record LookedOver(string? Operator, IReadOnlyList<string>? Answers);

/// <summary>What comes before motion on a real machine: each item of the checklist answered with yes, and the e-stop tried.</summary>
/// <param name="machine">The machine.</param>
/// <param name="port">The port that it is on; null for none but the mock.</param>
/// <param name="list">What is asked.</param>
/// <param name="runs">The folder of runs, where today's records are looked for.</param>
/// <param name="time">Tells what day it is.</param>
public sealed class BeforeMotion(Machine machine, string? port, Checklist list, string runs, TimeProvider time)
{
    private const int LongestName = 60;

    private static readonly TimeSpan EStopPatience = TimeSpan.FromMinutes(2);

    /// <summary>What is to be asked now.</summary>
    public ChecklistView Asked()
    {
        if (port is null)
            return new ChecklistView(false, false, [], "not needed", null);
        var now = time.GetLocalNow();
        var isShort = IsShort(now);
        return new ChecklistView(true, !isShort, [.. list.Asked(isShort).Select(item => new AskedView(item.Id, item.Ask, item.Why))],
            ChecklistRecord.WasEStopTriedToday(runs, machine.Name, port, now) ? "tried today" : "to be tried",
            "After a run that is complete the machine can look for its zero once more, slowly, to tell whether it has lost steps: it moves by itself then.");
    }

    /// <summary>The record of what was answered.</summary>
    /// <exception cref="RefusedException">Not all was answered with yes, or nobody is named.</exception>
    public ChecklistRecord Take(LookedOver looked)
    {
        var now = time.GetLocalNow();
        var isShort = IsShort(now);
        var asked = list.Asked(isShort).ToList();
        if (asked.FirstOrDefault(item => looked.Answers?.Contains(item.Id) != true) is { } open)
            throw new RefusedException($"checklist, {open.Id}", "no answer", "yes", "Nothing was started. Look at the machine and answer each question.");
        var who = looked.Operator?.Trim() ?? "";
        if (who.Length is 0 or > LongestName || who.Any(char.IsControl))
            throw new RefusedException("operator", who.Length == 0 ? "no name" : $"{who.Length} characters", $"1 to {LongestName} characters in a line",
                "Say who operates the machine.");
        return new ChecklistRecord
        {
            Machine = machine.Name,
            Device = port!,
            List = list.Digest,
            At = now,
            Operator = who,
            IsWhole = !isShort,
            Answers = [.. asked.Select(item => new ChecklistAnswer(item.Id, item.Ask, now))],
        };
    }

    /// <summary>Has the e-stop tried where that is due; null, and told, where it was not seen to open and close.</summary>
    public async Task<ChecklistRecord?> TryEStopAsync(DeviceDialogue device, ChecklistRecord record, Action<string> tell, Func<bool> goesOn)
    {
        if (!EStopTrial.IsNeeded(device.Status!.Value, ChecklistRecord.WasEStopTriedToday(runs, machine.Name, port!, time.GetLocalNow())))
            return record;
        return await EStopTrial.RunAsync(device, tell, EStopPatience, goesOn).ConfigureAwait(false)
            ? record with { EStopTried = time.GetLocalNow() }
            : null;
    }

    private bool IsShort(DateTimeOffset now) => ChecklistRecord.WasWholeToday(runs, machine.Name, port!, list.Digest, now);
}

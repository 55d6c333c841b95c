using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>The ends that a run can come to, in words.</summary>
internal static class RunEnds
{
    public static RunEnd Complete() => new(RunOutcome.Complete, "Every record was executed; the machine is at rest.", "");

    public static RunEnd Stopped(StateCause cause) => new(RunOutcome.Stopped,
        $"The run was stopped in a controlled way{Because(cause)}; the machine is at rest.", "Run the job again when you are ready: it starts from the beginning.");

    public static RunEnd Aborted(StateCause cause) => new(RunOutcome.Aborted,
        $"The machine stopped at once, its motors are off{Because(cause)}.", StateWords.WhatToDo(cause));

    public static RunEnd Refused(string what, Wire.Refusal answer) => new(RunOutcome.Refused,
        $"The device refused {what}: {StateWords.Of(answer)}. Nothing was started.",
        answer == Wire.Refusal.CausePresent ? "Release the e-stop, or look for its cut wire, then run the job again." : "Check the machine file and the device's firmware.");

    public static RunEnd RecordsRefused(Wire.Refusal answer) => new(RunOutcome.Refused,
        $"The device refused records in the middle of the run: {StateWords.Of(answer)}.",
        "This should never happen: keep the run folder, it holds what is needed to find out why.");

    public static RunEnd Busy(MachineState state) => new(RunOutcome.Refused,
        $"The device is busy: it is {state} ({StateWords.Of(state)}). It was left as it is.",
        "Let it finish, or stop it at the machine, then run the job again.");

    public static RunEnd NoAnswer() => new(RunOutcome.NoAnswer, "The device never answered. Nothing was started.",
        "Check that it has power, the cable, the port's name and the baud rate in the machine file.");

    public static RunEnd WrongVersion(byte? version) => new(RunOutcome.Refused,
        $"The device speaks version {version} of the wire, this program version {Hello.CurrentVersion}. Nothing was started.",
        "Bring both to the same version.");

    public static RunEnd LineLost(string why, long records) => new(RunOutcome.LineLost,
        $"The line to the device was lost: {why}. {records} records are known to be done. By itself the device stops after its line time-out and holds; go and see that it does.",
        "If it moves, press the e-stop. Check the cable, then run the job again: it starts from the beginning.");

    public static RunEnd TookTooLong(string what, TimeSpan limit) => new(RunOutcome.Refused,
        $"The device did not {what} within {limit.TotalSeconds:0.#} s.", "Look at the machine; if it moves when it should not, press the e-stop.");

    public static RunEnd JournalFailed(string why) => new(RunOutcome.JournalFailed,
        $"The journal could not be written ({why}), so the machine was held and then stopped. The journal is true up to its last entry.",
        "Make room on the disk or choose another --runs folder, then run the job again.");

    public static RunEnd CompleteWithoutJournal(string why) => new(RunOutcome.JournalFailed,
        $"Every record was executed and the machine is at rest, but the end could not be written to the journal ({why}).",
        "Make room on the disk before the next run.");

    public static RunEnd HeldTooLong(StateCause cause) => new(RunOutcome.HeldTooLong,
        $"The machine held{Because(cause)}, nobody let it go on, and the run was stopped.", StateWords.WhatToDo(cause));

    private static string Because(StateCause cause) => StateWords.Of(cause) is { Length: > 0 } words ? $" ({words})" : "";
}

using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>The ends that a run can come to, in words: what happened, what the machine does now, what a person can do.</summary>
internal static class RunEnds
{
    private const string GoOn = "go on with this run by bridge run --resume and its folder";
    private const string RunAgain = $"When the machine is ready, run the job again from its beginning, or {GoOn}.";

    public static RunEnd Complete() => new(RunOutcome.Complete, "The job was executed to its end; the machine is at rest.", "");

    public static RunEnd LayerDone() => new(RunOutcome.LayerDone,
        "The layer was executed to its end; the machine is at rest, and finds its zero anew before it goes on.",
        "Go on with this run by bridge run --resume and its folder.");

    public static RunEnd EndedEarly() => new(RunOutcome.Stopped,
        "The device says that the run is complete, but not all of its records were executed; the machine is at rest.", RunAgain);

    public static RunEnd Stopped(StateCause cause) => new(RunOutcome.Stopped,
        $"The run was stopped in a controlled way{Because(cause)}; the machine is at rest.", ToDo(cause));

    public static RunEnd NotStarted(bool isResumed) =>
        new(RunOutcome.Stopped, $"The run was stopped before anything was started{(isResumed ? " anew" : "")}; the machine was not set going.", RunAgain);

    public static RunEnd Aborted(StateCause cause) => new(RunOutcome.Aborted,
        $"The machine stopped at once, its motors are off{Because(cause)}.", ToDo(cause));

    public static RunEnd AbortUnconfirmed(string why) => new(RunOutcome.LineLost,
        $"The machine was told again and again to stop at once, and it is not known whether it has stopped: {why}.",
        $"Press the e-stop. Then check the cable and the machine. {RunAgain}");

    public static RunEnd Refused(string what, Answer answer) => new(RunOutcome.Refused,
        $"The device refused {what}: {StateWords.Of(answer)}. The machine is at rest.",
        answer == Answer.CausePresent
            ? "Release the e-stop, or look for its cut wire, then run the job again."
            : "Check the machine file and the device's firmware.");

    public static RunEnd RecordsRefused(Answer answer) => new(RunOutcome.Refused,
        $"The device did not take records as they were sent{(answer == Answer.Accepted ? "" : $" ({StateWords.Of(answer)})")}, "
        + "so the run was stopped; the machine is at rest.",
        $"This should never happen: keep the run folder, it holds what is needed to find out why. {RunAgain}");

    public static RunEnd Busy(MachineState state) => new(RunOutcome.Refused,
        $"The device is busy with another run: it is {state} ({StateWords.Of(state)}). It was given no command; "
        + "a machine in motion holds when a program connects.",
        "See that the machine is as it should be. Then go on with the run that is held, by bridge run --resume and its folder, or end it: run the job with "
        + "--end-held.");

    public static RunEnd NoLongerHeld(MachineState state) => new(RunOutcome.Refused,
        $"The device no longer holds the run: it is {state} ({StateWords.Of(state)}). Nothing was started, and it was given no command.",
        "Go on once more: it is then looked at anew.");

    public static RunEnd NoAnswer() => new(RunOutcome.NoAnswer,
        "The device never answered; nothing was started. Whatever it does, it does by itself, and it may not hear this program: look at it.",
        "Check that it has power, the cable, the port's name and the baud rate in the machine file.");

    public static RunEnd NoAnswerTo(string what) => new(RunOutcome.NoAnswer,
        $"The device is there but did not answer {what}; the machine is at rest.", $"Check the device's firmware. {RunAgain}");

    public static RunEnd TookTooLong(MachineState goal, TimeSpan limit) => new(RunOutcome.Refused,
        $"The machine was not {goal} ({StateWords.Of(goal)}) within {limit.TotalSeconds:0.#} s, so it was stopped; it is at rest.",
        "Look at its endstops, and at reference_seconds in the machine file.");

    public static RunEnd LineLost(string why) => new(RunOutcome.LineLost,
        $"The line to the device was lost: {why}. By itself the machine stops after its line time-out and holds; go and see that it does.",
        $"If it moves, press the e-stop. Check the cable, then {GoOn}.");

    public static RunEnd OfLink(LinkFault fault, byte? version, bool wasHeard) => fault switch
    {
        LinkFault.WrongVersion => new(RunOutcome.Refused,
            $"The device speaks version {version} of the wire, this program version {Hello.CurrentVersion}; nothing was started, and it was given no "
            + "command.", "Bring both to the same version."),
        LinkFault.BadWelcome => new(RunOutcome.Refused,
            "What answered does not say sensibly what it is; nothing was started, and it was given no command.",
            "Check the port's name: is it another device? Check the firmware."),
        _ => wasHeard ? LineLost("the device no longer answers") : NoAnswer(),
    };

    public static RunEnd JournalFailed(string why) => new(RunOutcome.JournalFailed,
        $"The journal could not be written ({why}); nothing was started, and the machine was not set going.",
        $"Make room on the disk. Then run the job again, which may have another --runs folder; if it had begun before, {GoOn}.");

    public static RunEnd HeldTooLong(StateCause cause) => new(RunOutcome.HeldTooLong,
        $"The machine held{Because(cause)}, nobody let it go on, and the run was stopped; the machine is at rest.", ToDo(cause));

    public static RunEnd HeldForJournal() => new(RunOutcome.HeldTooLong,
        "The machine was held because the journal could not be written, and that did not change in time, so the run was stopped; "
        + "the machine is at rest.", RunAgain);

    /// <summary>An end that the journal could not be told: who reads that alone does not learn of it, so it is neither complete nor stopped.</summary>
    public static RunEnd WithoutJournal(RunEnd end, string why) => end.Outcome == RunOutcome.JournalFailed ? end : end with
    {
        Outcome = end.Outcome is RunOutcome.Complete or RunOutcome.LayerDone or RunOutcome.Stopped or RunOutcome.HeldTooLong
            ? RunOutcome.JournalFailed : end.Outcome,
        Words = $"{end.Words} The journal is true up to its last entry, but the rest could not be written to it ({why}).",
        WhatToDo = end.Outcome == RunOutcome.Complete
            ? "Make room on the disk. Nothing is left to work, though the record does not say so: do not go on with this run."
            : $"Make room on the disk. {end.WhatToDo}",
    };

    /// <summary>What is known where the device did not say what it has done since.</summary>
    public const string AsBefore = "What was done before stands in its journal.";

    /// <summary>What is known of the work at an end.</summary>
    /// <param name="place">The place that the job has reached.</param>
    /// <param name="records">Records of the job.</param>
    /// <param name="sent">Records that were sent.</param>
    /// <param name="doubt">Records of which it is not known what became of them.</param>
    /// <param name="wasCutShort">Whether the machine stopped at once, maybe on its way to a cell.</param>
    public static string Known(JobPlace place, long records, uint sent, uint doubt, bool wasCutShort)
    {
        if (sent == 0 && place == default)
            return "No record was sent.";
        var cells = place.Cells == 0 ? "" : $" and {Count(place.Cells, "cell")} of the next";
        if (doubt > 0)
            return $"{place.Records} of {Count(records, "record")}{cells} are known to be done; "
                + $"what became of the next {Count(doubt, "record")}, which were sent, is not known.";
        var next = wasCutShort && place.Records < records ? " The cell after that may have been begun: look at it." : "";
        return $"{place.Records} of {Count(records, "record")}{cells} are done.{next}";
    }

    private static string Count(long number, string what) => number == 1 ? $"1 {what}" : $"{number} {what}s";

    private static string Because(StateCause cause) => StateWords.Of(cause) is { Length: > 0 } words ? $" ({words})" : "";

    private static string ToDo(StateCause cause) => $"{StateWords.WhatToDo(cause)} {RunAgain}".TrimStart();
}

using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>States, causes and answers in words that say what the machine is doing and what a person can do.</summary>
public static class StateWords
{
    /// <summary>What the machine does in a state.</summary>
    public static string Of(MachineState state) => state switch
    {
        MachineState.Clearing => "leaving the abort",
        MachineState.Stopped => "at rest",
        MachineState.Starting => "starting",
        MachineState.Idle => "referenced and ready",
        MachineState.Suspended => "waiting for records",
        MachineState.Execute => "working",
        MachineState.Stopping => "coming to a stop",
        MachineState.Aborting => "stopping at once, motors off",
        MachineState.Aborted => "motors off",
        MachineState.Holding => "coming to rest after the present cell",
        MachineState.Held => "held; the run can go on",
        MachineState.Unholding => "going on",
        MachineState.Suspending => "running out of records",
        MachineState.Unsuspending => "going on",
        MachineState.Resetting => "looking for its zero",
        MachineState.Completing => "closing the run",
        MachineState.Complete => "complete",
        _ => "unknown",
    };

    /// <summary>Why a machine is in its state; empty where nothing needs to be said.</summary>
    public static string Of(StateCause cause) => cause switch
    {
        StateCause.PowerOn => "it was just switched on",
        StateCause.Operator => "it was told to",
        StateCause.EStop => "the e-stop is pressed or its wire is cut",
        StateCause.StopOctets => "it was told to stop at once",
        StateCause.EndstopHit => "an endstop closed while it moved",
        StateCause.LostReference => "it no longer knows where it is",
        StateCause.LineSilent => "it heard nothing from this program",
        StateCause.Starved => "the next records did not come in time",
        StateCause.BadRecord => "a record cannot be done",
        StateCause.ReferenceFailed => "an axis did not find or did not leave its endstop",
        StateCause.JobComplete => "the last record is done",
        StateCause.Watchdog => "its firmware hung",
        StateCause.HostRestarted => "a program connected while it moved",
        StateCause.OperatorWait => "the job waits for the operator",
        StateCause.FirmwareFault => "its firmware found a fault in itself",
        StateCause.StoreBlank => "its button asked for a stored job and none is stored",
        StateCause.StoreDamaged => "its button asked for the stored job, which is damaged",
        StateCause.StoreForeign => "its button asked for the stored job, which is none or one for another machine",
        _ => "",
    };

    /// <summary>What a person can do about a cause before the machine goes on or runs again; empty where it is nothing.</summary>
    public static string WhatToDo(StateCause cause) => cause switch
    {
        StateCause.EStop => "See why it was pressed, make the machine safe, then release it.",
        StateCause.EndstopHit or StateCause.LostReference =>
            "Look for what is in the way, a loose belt or a loose endstop wire.",
        StateCause.LineSilent or StateCause.Starved => "Check the cable and this computer's load.",
        StateCause.HostRestarted => "See that no other program uses the machine.",
        StateCause.ReferenceFailed => "Check the endstop of each axis and its wiring, and which end the machine file says it is at.",
        StateCause.BadRecord or StateCause.FirmwareFault or StateCause.Watchdog =>
            "Keep the run folder, it holds what is needed to find out why; check the firmware's version.",
        StateCause.StoreBlank or StateCause.StoreDamaged or StateCause.StoreForeign => "Store the job once more with bridge store.",
        StateCause.OperatorWait => "Do what the job waits for.",
        _ => "",
    };

    /// <summary>Why a device refused a message.</summary>
    public static string Of(Answer answer) => answer switch
    {
        Answer.UnknownMessage => "it does not know the message: is its firmware older than this program?",
        Answer.BadValue => "a value is outside its range",
        Answer.WrongState => "it is not in a state for that",
        Answer.NoSetup => "it was not told about the machine",
        Answer.WrongWidth => "it has no records of this width",
        Answer.SpeedTooHigh => "it cannot make steps that fast: lower top_speed_mm_s or steps_per_mm in the machine file",
        Answer.CausePresent => "the cause is still there",
        Answer.NotReferenced => "an axis is not referenced",
        Answer.NoRun => "no run has begun",
        Answer.IndexMismatch => "records are missing or doubled",
        Answer.QueueOverrun => "its queue is full",
        Answer.BeyondRun => "the run has fewer records",
        Answer.BadRecord => "a record cannot be done",
        Answer.StoreBusy => "its store is still being written",
        Answer.StoreFull => "its store is too small for that",
        Answer.StoreBlank => "no job is stored in it",
        Answer.StoreDamaged => "what is stored in it is damaged",
        Answer.StoreForeign => "what is stored in it is no job, or one for another machine",
        _ => "accepted",
    };
}

using System.Text.Json.Serialization;

namespace Bridge.Runs;

/// <summary>What an entry of the journal tells.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<JournalKind>))]
public enum JournalKind
{
    /// <summary>A run begins: machine, job, device.</summary>
    Begin,

    /// <summary>The run is taken up again by another program; the device has it still, and its counters go on.</summary>
    TakeUp,

    /// <summary>The run is gone on with from a place of its job, on a device that has forgotten it: counters begin anew, along a new course.</summary>
    Restart,

    /// <summary>The device is in another state.</summary>
    State,

    /// <summary>A command is about to be sent to the device.</summary>
    Command,

    /// <summary>Records up to here are about to be sent; written before they are.</summary>
    Sent,

    /// <summary>The device has executed records and cells up to here.</summary>
    Done,

    /// <summary>The run is over.</summary>
    End,

    /// <summary>The device has said what it is.</summary>
    Device,

    /// <summary>The machine has referenced again, after the run or at a change of layer, and tells how far its counts were off.</summary>
    Referenced,

    /// <summary>All files of the folder are written: their digests.</summary>
    Sealed,
}

/// <summary>One entry of the journal; fields that say nothing are left out of the file.</summary>
/// <param name="N">Its number in the journal, from 0, without gaps.</param>
/// <param name="Seconds">Time since the last Begin, TakeUp or Restart in seconds, on the run's clock.</param>
/// <param name="Kind">What it tells.</param>
public sealed record JournalEntry(long N, double Seconds, JournalKind Kind)
{
    /// <summary>Version of the journal's format; in the first entry.</summary>
    public int? Format { get; init; }

    /// <summary>The date and time, ISO 8601, UTC; in the first entry, a TakeUp, a Restart and a Sealed.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>The version of the program; where there is a date and time.</summary>
    public string? Program { get; init; }

    /// <summary>The run's number on the wire; in the first entry and in a Restart.</summary>
    public int? Run { get; init; }

    /// <summary>The machine's name; in the first entry.</summary>
    public string? Machine { get; init; }

    /// <summary>The digest of the machine file; in the first entry.</summary>
    public string? MachineDigest { get; init; }

    /// <summary>The digest of the job file; in the first entry.</summary>
    public string? JobDigest { get; init; }

    /// <summary>What executes the run; in the first entry, a TakeUp and a Restart.</summary>
    public string? Device { get; init; }

    /// <summary>Records that are known to be so: of the whole run, sent, or done. In a Restart: the record of the job that it goes on in.</summary>
    public long? Records { get; init; }

    /// <summary>Cells worked in the record that is being executed. In a Restart: the cell of that record that it goes on with.</summary>
    public long? Cells { get; init; }

    /// <summary>The record of the job before which the run was to end for now, to find its zero anew; in the first entry and in a Restart.</summary>
    public long? Until { get; init; }

    /// <summary>What was in doubt and what was decided of it; in a Restart, where anything was.</summary>
    public SettledDoubt? Doubt { get; init; }

    /// <summary>The device's state, by its standard name.</summary>
    public string? State { get; init; }

    /// <summary>Why it is in that state.</summary>
    public string? Cause { get; init; }

    /// <summary>The command that is sent, by its standard name.</summary>
    public string? Command { get; init; }

    /// <summary>How the run ended.</summary>
    public string? Outcome { get; init; }

    /// <summary>Where the machine is, as x, y, layer, head.</summary>
    public string? Position { get; init; }

    /// <summary>The version of the device's firmware, as major.minor; in a Device.</summary>
    public string? Firmware { get; init; }

    /// <summary>The version of the wire that the device speaks; in a Device.</summary>
    public int? Wire { get; init; }

    /// <summary>Why the device last began from its beginning, by its standard name; in a Device.</summary>
    public string? Reset { get; init; }

    /// <summary>How far the count of each axis was off; in a Referenced.</summary>
    public IReadOnlyList<LostSteps>? Lost { get; init; }

    /// <summary>The layer, from 0, that began next; in a Referenced at a change of layer.</summary>
    public int? Layer { get; init; }

    /// <summary>Seconds that the referencing took; in a Referenced.</summary>
    public double? Took { get; init; }

    /// <summary>SHA-256 of each file of the folder but the journal, by its name with / between folders; in a Sealed.</summary>
    public IReadOnlyDictionary<string, string>? Files { get; init; }
}

using System.Text.Json;
using System.Text.Json.Serialization;
using Bridge.Wire;

namespace Bridge.Runs;

/// <summary>A run in one page: summary.json.</summary>
public sealed record RunSummary
{
    /// <summary>The version of the format that is written.</summary>
    public const int CurrentFormat = 1;

    /// <summary>Version of the summary's format.</summary>
    public int Format { get; init; } = CurrentFormat;

    /// <summary>How it ended.</summary>
    public required RunOutcome Outcome { get; init; }

    /// <summary>What happened, in words.</summary>
    public required string Words { get; init; }

    /// <summary>What to do next, in words; may be empty.</summary>
    public required string WhatToDo { get; init; }

    /// <summary>The machine's name.</summary>
    public required string Machine { get; init; }

    /// <summary>SHA-256 of the machine file.</summary>
    public required string MachineDigest { get; init; }

    /// <summary>SHA-256 of the job file.</summary>
    public required string JobDigest { get; init; }

    /// <summary>What executed the run, at the last.</summary>
    public required string Device { get; init; }

    /// <summary>When it first began: ISO 8601, UTC; left out where its journal, of an older version, does not tell.</summary>
    public DateTimeOffset? Began { get; init; }

    /// <summary>Seconds that programs were at it, all parts together, referencing included. One that was cut off counts up to its last entry.</summary>
    public required double Seconds { get; init; }

    /// <summary>
    /// Seconds from the job's start to the run's end, holds included; of a run that was gone on with, those of its parts together, the way back
    /// included. Left out where it did not start.
    /// </summary>
    public double? JobSeconds { get; init; }

    /// <summary>Seconds that were predicted for the job, from its start to its end.</summary>
    public required double PredictedSeconds { get; init; }

    /// <summary>Records of the run, each repeat counted, the end included.</summary>
    public required long Records { get; init; }

    /// <summary>Records that were executed.</summary>
    public required long RecordsDone { get; init; }

    /// <summary>Cells worked by head a, as the device told.</summary>
    public required long WorkedByA { get; init; }

    /// <summary>Cells worked by head b, as the device told.</summary>
    public required long WorkedByB { get; init; }

    /// <summary>In how many cells the gantry's truth differs from what the device told; left out where the truth is not known, as of a board.</summary>
    public long? CellsNotAsTold { get; init; }

    /// <summary>What was in doubt each time it was gone on with, and how that was settled, the last 100; left out where nothing was.</summary>
    public IReadOnlyList<SettledDoubt>? Doubts { get; init; }

    /// <summary>How far the count of each axis was off when the machine referenced again after the run; left out where it did not.</summary>
    public IReadOnlyList<LostSteps>? Lost { get; init; }

    /// <summary>Frames that were sent, those sent again counted again; left out by older versions. What is told of the link is of the last part.</summary>
    public long? FramesSent { get; init; }

    /// <summary>Frames that came in whole; left out by older versions.</summary>
    public long? FramesReceived { get; init; }

    /// <summary>Round trips that were measured; left out by older versions.</summary>
    public long? RoundTrips { get; init; }

    /// <summary>How long they took; left out where none was measured.</summary>
    public RoundTripMs? RoundTripMs { get; init; }

    /// <summary>Frames that were sent more than once.</summary>
    public required long Retransmissions { get; init; }

    /// <summary>Frames that came in damaged.</summary>
    public required long DamagedFrames { get; init; }

    /// <summary>The version of the program that wrote this.</summary>
    public required string Program { get; init; }

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter() },
    };

    /// <summary>The page itself.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, Options);

    /// <summary>Reads a page; null where it is none.</summary>
    public static RunSummary? FromJson(string json)
    {
        try
        {
            return JsonSerializer.Deserialize<RunSummary>(json, Options);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

/// <summary>The round trips of a link, in milliseconds.</summary>
/// <param name="Least">The shortest.</param>
/// <param name="Mean">The mean.</param>
/// <param name="Most">The longest.</param>
public sealed record RoundTripMs(double Least, double Mean, double Most)
{
    /// <summary>Those that were measured; null where there is none.</summary>
    public static RoundTripMs? Of(RoundTrips measured) => measured.Count == 0 ? null : new RoundTripMs(
        Math.Round(measured.Least.TotalMilliseconds, 3), Math.Round(measured.Mean.TotalMilliseconds, 3), Math.Round(measured.Most.TotalMilliseconds, 3));
}

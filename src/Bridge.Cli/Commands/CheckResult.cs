using System.Text.Json;
using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Cli;

/// <summary>What bridge check found; the JSON that it prints. What could not be found out is null.</summary>
internal sealed record CheckResult
{
    private static readonly JsonSerializerOptions Options = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public required bool Proved { get; init; }

    public bool AgainstShape { get; init; }

    /// <summary>Cells of head b that the shape lacks and that support what would fall: a plan adds them.</summary>
    public long SupportCells { get; init; }

    /// <summary>Records of the image, the end included.</summary>
    public int? Records { get; init; }

    public int? Bytes { get; init; }

    public int? StoreBytes { get; init; }

    public double? Seconds { get; init; }

    /// <summary>Cells worked by each head, a cell worked twice counted twice.</summary>
    public HeadCounts? Worked { get; init; }

    public double? TravelMm { get; init; }

    public int? Layers { get; init; }

    public required IReadOnlyList<Finding> Problems { get; init; }

    public IReadOnlyList<Finding> Cautions { get; init; } = [];

    public static CheckResult Of(Image image, Machine machine, JobProof proof, IReadOnlyList<JobFault> faults, Timetable? times, bool againstShape) => new()
    {
        Proved = faults.Count == 0,
        AgainstShape = againstShape,
        Records = image.Count,
        Bytes = image.Bytes.Length,
        StoreBytes = machine.StoreBytes,
        Seconds = times is null ? null : Math.Round(times.Seconds, 3),
        Worked = new HeadCounts(proof.WorkedByA, proof.WorkedByB),
        TravelMm = times is null ? null : Math.Round(times.IdleMm + times.WorkMm, 3),
        Layers = proof.Layers,
        Problems = [.. faults.Select(Finding.Of)],
        Cautions = [.. proof.Cautions.Select(Finding.Of)],
    };

    /// <summary>The result where a file could not even be read.</summary>
    public static CheckResult Unreadable(RefusedException refused) => new()
    {
        Proved = false,
        Problems = [.. refused.Refusals.Select(refusal => Finding.Of("Unreadable", -1, refusal))],
    };

    public string ToJson() => JsonSerializer.Serialize(this, Options);
}

/// <summary>A count for each head.</summary>
internal sealed record HeadCounts(long A, long B);

/// <summary>One problem or caution.</summary>
internal sealed record Finding(string Rule, int? Record, string Place, string Found, string Allowed, string Action, string Text)
{
    public static Finding Of(JobFault fault) => Of(fault.Rule.ToString(), fault.Index, fault.Refusal);

    public static Finding Of(string rule, int record, Refusal refusal) =>
        new(rule, record < 0 ? null : record, refusal.Place, refusal.Found, refusal.Allowed, refusal.Action, refusal.ToString());
}

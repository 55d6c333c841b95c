using Bridge.Jobs;

namespace Bridge.Panel;

/// <summary>A cell of a layer.</summary>
public sealed record CellView(int Layer, int X, int Y);

/// <summary>What is wrong: where, what was found, what is allowed, what to do, and the cells that it is about.</summary>
/// <param name="Words">The whole in one line.</param>
/// <param name="Place">Where.</param>
/// <param name="Found">What stands there.</param>
/// <param name="Allowed">What may stand there.</param>
/// <param name="Action">What to do.</param>
/// <param name="Record">The record of the job, from 0; null where it is none.</param>
/// <param name="Cells">The cells, 1000 at most.</param>
public sealed record RefusalView(string Words, string Place, string Found, string Allowed, string Action, int? Record, IReadOnlyList<CellView> Cells)
{
    /// <summary>Of what a reader refused.</summary>
    public static RefusalView Of(Refusal refusal) => Of(refusal, null);

    /// <summary>Of a fault or a caution of a job.</summary>
    public static RefusalView Of(JobFault fault) => Of(fault.Refusal, fault.Index >= 0 ? fault.Index : null);

    private static RefusalView Of(Refusal refusal, int? record) => new(refusal.ToString(), refusal.Place, refusal.Found, refusal.Allowed, refusal.Action,
        record, [.. refusal.Cells.Select(at => new CellView(at.Layer, at.Cell.X, at.Cell.Y))]);
}

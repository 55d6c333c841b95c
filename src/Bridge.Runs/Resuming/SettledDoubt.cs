using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>What was in doubt when a run was gone on with, and what the person who went on decided: for the records.</summary>
public sealed record SettledDoubt
{
    /// <summary>The record in doubt, from 0, as it stands in the job.</summary>
    public required int Record { get; init; }

    /// <summary>Its layer, from 0.</summary>
    public required int Layer { get; init; }

    /// <summary>Its first cell in doubt; null where none is.</summary>
    public Cell? First { get; init; }

    /// <summary>Its last cell in doubt; null where none is.</summary>
    public Cell? Last { get; init; }

    /// <summary>How many of its cells are in doubt, from 0.</summary>
    public required long Cells { get; init; }

    /// <summary>Records after it that had been sent, from 0. They are executed again, whatever was decided.</summary>
    public required long RecordsAfter { get; init; }

    /// <summary>What was decided of its cells.</summary>
    public required InDoubt Decision { get; init; }

    /// <summary>A doubt that is settled by where the run goes on from: at one end of it or the other.</summary>
    public static SettledDoubt Of(Doubt doubt, JobPlace from)
    {
        Debug.Assert(from == doubt.Redo || from == doubt.Skip, "A run goes on from one end of what is in doubt.");
        var (first, last, count) = doubt.Cells;
        return new SettledDoubt
        {
            Record = doubt.Pass.Index,
            Layer = doubt.Pass.Entry.Layer,
            First = count > 0 ? first : null,
            Last = count > 0 ? last : null,
            Cells = count,
            RecordsAfter = doubt.RecordsAfter,
            Decision = from == doubt.Redo ? InDoubt.Redo : InDoubt.Skip,
        };
    }
}

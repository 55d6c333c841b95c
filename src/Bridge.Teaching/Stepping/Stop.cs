using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>Where a stepped job stands, whole, to be shown.</summary>
public sealed record Stop
{
    /// <summary>Where the machine is.</summary>
    public required Position Position { get; init; }

    /// <summary>The record that was last begun; null before the first.</summary>
    public required int? Index { get; init; }

    /// <summary>The counter: cells left of that record, 0 when it is done.</summary>
    public required long CellsLeft { get; init; }

    /// <summary>The repeat memory; null where it is empty.</summary>
    public required Repeat? Repeat { get; init; }

    /// <summary>The record that is taken next; null behind the last.</summary>
    public required int? Next { get; init; }

    /// <summary>Records done, each `again` and jump among them.</summary>
    public required long Steps { get; init; }

    /// <summary>Cells worked by head a and head b.</summary>
    public required (long A, long B) Cells { get; init; }

    /// <summary>Whether the job is complete.</summary>
    public required bool IsComplete { get; init; }

    /// <summary>Why the next record cannot be done; null where it was not tried, or can be.</summary>
    public required JobFault? Fault { get; init; }

    internal static Stop Of(Image image, StepState state)
    {
        var next = state.Reader.Next;
        return new Stop
        {
            Position = state.Position,
            Index = state.Index < 0 ? null : state.Index,
            CellsLeft = state.Pass is { } pass ? pass.Work.Cells - state.CellsDone : 0,
            Repeat = state.Reader.Repeat,
            Next = next < image.Count ? next : null,
            Steps = state.Steps,
            Cells = state.Cells,
            IsComplete = state.Pass is null && state.Reader.Fault is null && (next >= image.Count || image[next].Verb == Verb.End),
            Fault = state.Reader.Fault,
        };
    }
}

/// <summary>The same as a condition sees it, for each of many places.</summary>
public readonly struct Stopped
{
    private readonly Stepper _stepper;
    private readonly StepState _state;

    internal Stopped(Stepper stepper, StepState state) => (_stepper, _state) = (stepper, state);

    /// <summary>Where the machine is.</summary>
    public Position Position => _state.Position;

    /// <summary>Whether the last step worked a cell.</summary>
    public bool HasWorked => _state.HasWorked;

    /// <summary>The record that was last begun.</summary>
    public int Index => _state.Index;

    /// <summary>Cells left of it.</summary>
    public long CellsLeft => _state.Pass is { } pass ? pass.Work.Cells - _state.CellsDone : 0;

    /// <summary>Cells worked in all.</summary>
    public long Cells => _state.Cells.A + _state.Cells.B;

    /// <summary>The record that would begin next; -1 within one.</summary>
    public int BeginsNext => _state.Pass is null ? _state.Reader.Next : -1;

    /// <summary>Whether the next record goes up a layer.</summary>
    public bool NextRises => _stepper.NextRises;
}

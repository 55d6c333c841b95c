using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Teaching;

/// <summary>What going on at another record would mean, found before it is done: the rest of the job as it would be, and as it would be then.</summary>
public sealed record JumpConsequences
{
    // More than this many cells of all layers are counted and not compared.
    private const long MostCompared = 64 << 20;

    /// <summary>The record that would be the next.</summary>
    public required int To { get; init; }

    /// <summary>Records that would be passed over; null where the job from here never comes to that record, as going back.</summary>
    public required long? PassedOver { get; init; }

    /// <summary>Cells of the present record that would stay undone.</summary>
    public required long CellsLeft { get; init; }

    /// <summary>The repeat memory that would be emptied; null where it is empty.</summary>
    public required Repeat? Repeat { get; init; }

    /// <summary>The layer on which that record would have begun and the one on which it would; null where they are the same, or it is not come to.</summary>
    public required (int Was, int Would)? Layers { get; init; }

    /// <summary>Cells that the job would work from here, and would not then; null where there are too many to compare.</summary>
    public required long? Missing { get; init; }

    /// <summary>Cells that would be worked then, and not from here on.</summary>
    public required long? Extra { get; init; }

    /// <summary>Those of them that are worked on the present layer already.</summary>
    public required long? Again { get; init; }

    /// <summary>What would stop the job then; null where nothing does.</summary>
    public required JobFault? Fault { get; init; }

    /// <summary>Finds them. The record is one of the image.</summary>
    public static JumpConsequences Of(Stepper stepper, int to)
    {
        var (ahead, grid) = (stepper.Ahead(), stepper.Grid);
        var isComparable = (long)grid.X * grid.Y * grid.Layers <= MostCompared;
        var (natural, jumped) = (new WorkedCells(grid), new WorkedCells(grid));
        var (passed, layerThere) = GoOn(ahead, to, isComparable ? natural : null);
        var reader = stepper.Ahead().Reader;
        reader.GoOnAt(to, ahead.Position);
        Work(reader, isComparable ? jumped : null);
        return new JumpConsequences
        {
            To = to,
            PassedOver = passed,
            CellsLeft = stepper.Stop.CellsLeft,
            Repeat = stepper.Stop.Repeat,
            Layers = layerThere is { } layer && layer != ahead.Position.Layer ? (layer, ahead.Position.Layer) : null,
            Missing = isComparable ? natural.CountBeyond(jumped) : null,
            Extra = isComparable ? jumped.CountBeyond(natural) : null,
            Again = isComparable ? jumped.CountBeyond(natural, ahead.Position.Layer, stepper.Picture.Has) : null,
            Fault = reader.Fault,
        };
    }

    /// <summary>Them in words, a line each; at least one.</summary>
    public IEnumerable<string> Lines()
    {
        yield return PassedOver is { } passed
            ? $"Record {To} comes next: {Count(passed, "record")} passed over."
            : $"Record {To} comes next, which the job does not come to from here: what stands from there on is done once more.";
        if (CellsLeft > 0)
            yield return $"{ExplanationWords.Count(CellsLeft, "cell")} of the present record left undone.";
        if (Repeat is { } repeat)
            yield return $"The repeat memory is emptied: records {repeat.First} to {repeat.Again - 1} are not finished, "
                + $"{Count(repeat.RoundsLeft, "more round")} left out.";
        if (Layers is { } layers)
            yield return $"It begins on layer {layers.Would} in place of layer {layers.Was}, and so does all that follows.";
        if (Missing is > 0 and var missing)
            yield return $"{ExplanationWords.Count(missing, "cell")} that the job would work from here left unworked.";
        if (Extra is > 0 and var extra)
            yield return $"{Count(extra, "cell")} worked that the job would not work from here, {Again} of them worked already on this layer.";
        if (Missing is null)
            yield return "The cells are too many to compare.";
        if (Fault is { } fault)
            yield return $"The job then breaks off: {fault}";
    }

    // What is left as the job has it: how many records come before the one asked for, and on which layer that would begin.
    private static (long? Passed, int? Layer) GoOn(StepState state, int to, WorkedCells? worked)
    {
        var (reader, passed, found) = (state.Copy().Reader, 0L, ((long?)null, (int?)null));
        if (state.Pass is { } present)
            Add(worked, present, skip: state.CellsDone);
        Look();
        while (reader.TryNext(out var pass))
        {
            passed++;
            Add(worked, pass, skip: 0);
            Look();
        }

        return found;

        void Look()
        {
            if (found.Item1 is null && reader.Next == to)
                found = (passed, reader.Position.Layer);
        }
    }

    private static void Work(PassReader reader, WorkedCells? worked)
    {
        while (reader.TryNext(out var pass))
            Add(worked, pass, skip: 0);
    }

    private static void Add(WorkedCells? worked, Pass pass, long skip)
    {
        if (worked is null)
            return;
        foreach (var cell in pass.Work)
            if (skip-- <= 0)
                worked.Add(cell, pass.Entry.Layer, pass.Entry.Head);
    }

    private static string Count(long number, string word) => $"{number} {word}{(number == 1 ? " is" : "s are")}";
}

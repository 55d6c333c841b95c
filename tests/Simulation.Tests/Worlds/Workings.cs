using Bridge.Runs;

namespace Simulation.Tests;

/// <summary>How often the gantry worked each cell of a job, held against what was named as in doubt: every other one is worked once.</summary>
internal sealed class Workings(SimulatedJob job)
{
    private readonly int[] _worked = new int[job.InOrder.Count];
    private readonly int[] _mayRepeat = new int[job.InOrder.Count];
    private readonly bool[] _mayMiss = new bool[job.InOrder.Count];

    /// <summary>The cells that a host must know of: all but those that it was told to leave as they are.</summary>
    public WorkedCells Known
    {
        get
        {
            var known = new WorkedCells(job.Machine.Grid);
            foreach (var (place, position) in job.InOrder.Index())
                if (!_mayMiss[place])
                    known.Add(position.Cell, position.Layer, position.Head);
            return known;
        }
    }

    /// <summary>A run goes on, with what was in doubt settled.</summary>
    public void Settle(Settlement settled)
    {
        if (settled.Doubt is not { } doubt)
            return;
        var first = job.CellsBefore(doubt.Redo);
        var behind = first + (int)doubt.Cells.Count;
        Fail.If(job.CellsBefore(doubt.Skip) != behind, $"{doubt.Cells.Count} cells from number {first} on are named, and those up to {doubt.Skip} left out");
        Fail.If(behind > first && (job.InOrder[first].Cell != doubt.Cells.First || job.InOrder[behind - 1].Cell != doubt.Cells.Last),
            $"the cells from number {first} on are in doubt, and {doubt.Cells} are named");
        for (var place = first; place < behind; place++)
            if (settled.Decision == InDoubt.Redo)
                _mayRepeat[place]++;
            else
                _mayMiss[place] = true;
        var after = doubt.Redo.Records + 1; // its records are executed again, whatever is decided
        var last = job.CellsBefore(new JobPlace(after + doubt.RecordsAfter, 0));
        for (var place = job.CellsBefore(new JobPlace(after, 0)); place < last; place++)
            _mayRepeat[place]++;
    }

    /// <summary>A cell was worked.</summary>
    public void Work(int place)
    {
        _worked[place]++;
        Fail.If(_worked[place] > 1 + _mayRepeat[place],
            $"cell number {place} was worked {_worked[place]} times, and {_mayRepeat[place]} times it was to be worked again, as in doubt");
    }

    /// <summary>The job is done.</summary>
    public void Close()
    {
        for (var place = 0; place < _worked.Length; place++)
            Fail.If(_worked[place] == 0 && !_mayMiss[place], $"cell number {place} was never worked, and nobody chose to leave it out");
    }
}

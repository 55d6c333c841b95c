using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Teaching;

/// <summary>
/// A job under a person's hand: by cells, records and layers, on to where something holds, back to where it was, and on at another record. It moves
/// nothing by itself; what it does is told, so that a device can do it too.
/// </summary>
public sealed class Stepper
{
    private readonly Grid _grid;
    private readonly StepSnapshots _snapshots;
    private readonly List<long> _layerTicks = []; // the place before each record that went up a layer
    private StepState _state;
    private StepPicture _picture;
    private int _jumps;

    /// <summary>A job at its beginning.</summary>
    public Stepper(Image image, Grid grid)
    {
        (Image, _grid) = (image, grid);
        _state = new StepState(new PassReader(image, grid));
        _picture = new StepPicture(grid, layer: 0);
        _snapshots = new StepSnapshots(grid);
        _snapshots.Offer(_state, _picture);
    }

    /// <summary>The most jumps of one stepping: 1000.</summary>
    public const int MostJumps = 1000;

    /// <summary>The records.</summary>
    public Image Image { get; }

    /// <summary>The grid that the job is for.</summary>
    public Grid Grid => _grid;

    /// <summary>The place that the job has come to.</summary>
    public Stop Stop => Stop.Of(Image, _state);

    /// <summary>The smallest steps taken so far.</summary>
    public long Ticks => _state.Ticks;

    /// <summary>What was worked so far of the layer that the machine is on.</summary>
    public StepPicture Picture => _picture;

    /// <summary>Whether the next record goes up a layer.</summary>
    public bool NextRises => _state.Pass is null && _state.Reader.Next < Image.Count && Image[_state.Reader.Next] is { Rise: true, Verb: not Verb.Again };

    /// <summary>Works the next cell, with what comes before it in its record; one without cells is done whole. Null at the job's end and on a fault.</summary>
    public StepDone? Cell() => Forward(cells: 1);

    /// <summary>Does the next record, or what is left of the present one; to take an `again` is one too. Null at the job's end and on a fault.</summary>
    public StepDone? Record() => Forward(long.MaxValue);

    /// <summary>The same, but no further than to a place.</summary>
    public StepDone? RecordUpTo(long ticks) => ticks <= Ticks ? null : Forward(ticks - Ticks);

    /// <summary>Goes on by smallest steps, at least one, until something holds; false where it never did and the job is at its end or a fault.</summary>
    public bool RunTo(Func<Stopped, bool> holds)
    {
        while (Cell() is not null)
            if (holds(new Stopped(this, _state)))
                return true;
        return false;
    }

    /// <summary>Goes back to a place, 0 up to the present: what was worked since is not worked.</summary>
    public void BackToTicks(long ticks)
    {
        Debug.Assert(ticks >= 0 && ticks <= Ticks, "It was there.");
        Restore(state => state.Ticks <= ticks);
        while (_state.Ticks < ticks)
            Forward(ticks - _state.Ticks);
    }

    /// <summary>Goes back by a number of records; from within one its beginning is the first.</summary>
    public void BackRecords(long records)
    {
        var steps = Math.Max(0, _state.Steps - records + (_state.Pass is null ? 0 : 1));
        Restore(state => state.Steps < steps || state is { Pass: null } && state.Steps == steps);
        while (_state.Steps < steps)
            Record();
    }

    /// <summary>Goes back to before the record that went up to the present layer, or from just there the one before; on the lowest, to the beginning.</summary>
    public void BackLayer() => BackToTicks(_layerTicks.FindLast(ticks => ticks < Ticks));

    /// <summary>Goes on at a record of the image from where the machine is; false after too many jumps.</summary>
    public bool TryJump(int index)
    {
        if (_jumps == MostJumps)
            return false;
        _jumps++;
        _state.Jump(index);
        _snapshots.KeepJump(_state, _picture);
        return true;
    }

    /// <summary>The same place, to look ahead from.</summary>
    internal StepState Ahead() => _state.Copy();

    private StepDone? Forward(long cells)
    {
        var (ticks, next) = (Ticks, _state.Reader.Next);
        if (_state.TryTakeAgain())
            return StepDone.OfAgain(next);
        if (_state.Pass is null && !_state.TryBegin())
            return null;
        var (pass, first) = (_state.Pass!.Value, _state.CellsDone);
        if (first == 0)
            EnterLayer(pass, ticks);
        do
        {
            _state.Work(Math.Min(cells - (Ticks - ticks), _snapshots.Until(_state)), _picture);
            _snapshots.Offer(_state, _picture);
        }
        while (Ticks - ticks < cells && _state.Pass is not null);
        return StepDone.OfWork(pass, first, pass.Work.Cells == 0 ? 0 : Ticks - ticks);
    }

    private void EnterLayer(Pass pass, long ticks)
    {
        if (pass.Entry.Layer == _picture.Layer)
            return;
        _picture = new StepPicture(_grid, pass.Entry.Layer);
        if (_layerTicks.Count == 0 || _layerTicks[^1] < ticks)
            _layerTicks.Add(ticks);
    }

    private void Restore(Predicate<StepState> isBefore)
    {
        (_state, _picture) = _snapshots.TakeBack(isBefore);
        _layerTicks.RemoveAll(ticks => ticks >= _state.Ticks);
    }
}

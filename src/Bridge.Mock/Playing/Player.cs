using Bridge.Jobs;
using Bridge.Motion;

namespace Bridge.Mock;

/// <summary>What a player came upon.</summary>
internal enum PlayerEvent
{
    /// <summary>The time asked for.</summary>
    None,

    /// <summary>A cell is worked.</summary>
    Cell,

    /// <summary>The act is done.</summary>
    Done,

    /// <summary>An endstop has closed.</summary>
    Endstop,
}

/// <summary>
/// Acts out one act at a time: moves the gantry as time passes and stops at what happens on the way. Lengths are in steps,
/// times in seconds.
/// </summary>
internal sealed class Player(Gantry gantry)
{
    private Act _act;
    private double _began;
    private double _now;
    private double _closing = double.PositiveInfinity; // seconds into the act when an endstop closes

    /// <summary>Raised when another act than before is being done, the default one for none: the act, when it began, and the present, in seconds.</summary>
    public event Action<Act, double, double>? ActChanged;

    /// <summary>Where the device believes its carriage is. Only referencing sets it.</summary>
    public Place At { get; set; }

    /// <summary>Whether an act is being done.</summary>
    public bool IsBusy { get; private set; }

    /// <summary>Whether the carriage is on its way.</summary>
    public bool IsMoving => IsBusy && _act.From != _act.To;

    /// <summary>The kind of the present act, or of the last.</summary>
    public ActKind Kind => _act.Kind;

    /// <summary>Cells of the act that are worked.</summary>
    public int CellsDone { get; private set; }

    /// <summary>The endstop that closed last.</summary>
    public AxisName ClosedAxis { get; private set; }

    /// <summary>When something happens next, in seconds; infinite while there is nothing to do.</summary>
    public double NextEvent => IsBusy ? _began + Math.Min(_closing, NextOfAct) : double.PositiveInfinity;

    private double NextOfAct => CellsDone < _act.Cells ? _act.SecondsAtCell(CellsDone + 1) : _act.Seconds;

    /// <summary>Begins an act.</summary>
    /// <param name="act">What to do, from where the carriage is.</param>
    /// <param name="at">When it begins, in seconds.</param>
    public void Begin(Act act, double at)
    {
        (_act, _began, CellsDone, IsBusy) = (act, at, 0, true);
        Watch();
        ActChanged?.Invoke(_act, _began, at);
    }

    /// <summary>Goes on up to a time, which is not beyond the next event, and tells what happens then.</summary>
    public PlayerEvent AdvanceTo(double at)
    {
        _now = at;
        if (!IsBusy)
            return PlayerEvent.None;
        var closes = at >= _began + _closing;
        MoveTo(_act.PlaceAt(at - _began));
        if (closes)
            return Close();
        if (at < _began + NextOfAct)
            return PlayerEvent.None;
        if (CellsDone < _act.Cells)
        {
            CellsDone++;
            return PlayerEvent.Cell;
        }

        MoveTo(_act.To);
        IsBusy = false;
        return PlayerEvent.Done;
    }

    /// <summary>Begins a controlled stop; gives what is left for later, kind none where nothing is.</summary>
    public Act StopSoon(double at)
    {
        if (!IsBusy)
            return default;
        var stop = Stopping.Of(_act, Math.Clamp(at - _began, 0, _act.Seconds), CellsDone);
        if (_act.Kind != ActKind.WorkDots)
            CellsDone = 0; // a move is replaced by a shorter one, which counts its own
        (_act, _began) = (stop.Last, at - stop.Seconds);
        Watch();
        ActChanged?.Invoke(_act, _began, at);
        return stop.Rest;
    }

    /// <summary>Stops dead where the carriage is.</summary>
    public void Drop()
    {
        IsBusy = false;
        _act = default;
        ActChanged?.Invoke(_act, _now, _now);
    }

    /// <summary>
    /// Looks ahead for an endstop that will close, after something else than the device has moved the carriage.
    /// </summary>
    public void Watch()
    {
        _closing = double.PositiveInfinity;
        if (!IsMoving || gantry.PartToClose(_act.To - At) is not { } closing)
            return;
        var whole = (_act.To - _act.From).LengthMm;
        var ahead = (_act.To - At).LengthMm;
        _closing = _act.SecondsAtPart(1 - (1 - closing.Part) * ahead / whole);
        ClosedAxis = closing.Axis;
    }

    private PlayerEvent Close()
    {
        _closing = double.PositiveInfinity;
        return PlayerEvent.Endstop;
    }

    private void MoveTo(Place place)
    {
        gantry.Move(place - At);
        At = place;
    }
}

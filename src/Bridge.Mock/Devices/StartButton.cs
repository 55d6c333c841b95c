namespace Bridge.Mock;

/// <summary>
/// The start button on the machine: a press counts once its contact has been steady, and only where the contact has been seen open before. Times are
/// in seconds.
/// </summary>
internal sealed class StartButton
{
    private const double SteadySeconds = 0.03;

    private bool _reads;
    private bool _isDown;
    private bool _wasUp;
    private double _changed;

    /// <summary>When something about it will be sure; infinite for never.</summary>
    public double NextEvent => _reads != _isDown || (!_reads && !_wasUp) ? _changed + SteadySeconds : double.PositiveInfinity;

    /// <summary>Looks at the contact.</summary>
    public void Look(bool reads, double now)
    {
        if (reads != _reads)
            (_reads, _changed) = (reads, now);
    }

    /// <summary>Takes note of what is sure by now; true where that is a press.</summary>
    public bool HasBeenPressed(double now)
    {
        if (now < NextEvent)
            return false;
        var isPress = _reads && !_isDown && _wasUp;
        _isDown = _reads;
        _wasUp |= !_reads;
        return isPress;
    }
}

namespace Bridge.Wire.Tests;

/// <summary>The board's end of a trial: its main loop goes round at a steady pace, takes what has arrived, and tells when the firmware would.</summary>
internal abstract class TrialBoard<THeard, TTold>(TrialLine<THeard> from, TrialLine<TTold> to, BoardPace pace)
{
    private TimeSpan _turn;

    /// <summary>When its main loop next does something; null if never.</summary>
    public TimeSpan? NextTurn
    {
        get
        {
            var heard = from.Next is { } next ? TurnAt(next) : (TimeSpan?)null;
            var told = IsDue ? TurnAt(Later(_turn + pace.Turn, HandedOver)) : (TimeSpan?)null;
            return heard is null || told < heard ? told : heard;
        }
    }

    /// <summary>Whether there is something to tell.</summary>
    protected bool IsDue { get; set; }

    // The transmitter takes an octet while it sends the one before, so a frame has left the main loop two octets before its end on the line.
    private TimeSpan HandedOver => to.Free - 2 * pace.Octet;

    /// <summary>A turn of its main loop.</summary>
    public void Go(TimeSpan now)
    {
        _turn = now;
        while (from.TryTake(now, out var frame))
            Hear(frame);
        if (!IsDue || now < HandedOver)
            return;
        IsDue = false;
        var (told, length) = Tell();
        to.Put(told, length, now + pace.Composing, pace.Octet);
    }

    /// <summary>A frame has come, perhaps a damaged one.</summary>
    protected abstract void Hear(in TrialFrame<THeard> frame);

    /// <summary>What it tells now, and the octets of that on the line.</summary>
    protected abstract (TTold Told, int Length) Tell();

    private TimeSpan TurnAt(TimeSpan time) => Later(TimeSpan.FromTicks((time.Ticks + pace.Turn.Ticks - 1) / pace.Turn.Ticks * pace.Turn.Ticks), _turn);

    private static TimeSpan Later(TimeSpan left, TimeSpan right) => left > right ? left : right;
}

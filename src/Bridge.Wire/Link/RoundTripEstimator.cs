namespace Bridge.Wire;

/// <summary>
/// The retransmission time-out: RFC 6298, section 2, with a floor and bounds of our own. A serial line's round trip is milliseconds, so
/// the RFC's floor of 1 s does not fit; it is a SHOULD there.
/// </summary>
public sealed class RoundTripEstimator
{
    private readonly TimeSpan _granularity;
    private readonly TimeSpan _floor;
    private readonly TimeSpan _cap;

    /// <summary>An estimator that starts at <paramref name="initial"/> and stays within <paramref name="floor"/> and <paramref name="cap"/>.</summary>
    public RoundTripEstimator(TimeSpan granularity, TimeSpan initial, TimeSpan floor, TimeSpan cap)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(granularity, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThan(floor, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThan(initial, floor);
        ArgumentOutOfRangeException.ThrowIfLessThan(cap, initial);
        _granularity = granularity;
        _floor = floor;
        _cap = cap;
        Timeout = initial;
    }

    /// <summary>SRTT, the smoothed round trip; null before the first sample.</summary>
    public TimeSpan? Smoothed { get; private set; }

    /// <summary>RTTVAR, the round trip's variation; zero before the first sample.</summary>
    public TimeSpan Variation { get; private set; }

    /// <summary>RTO, the time to wait for an acknowledgement.</summary>
    public TimeSpan Timeout { get; private set; }

    /// <summary>
    /// Takes a measured round trip: never one of which it is not known which copy of the frame was answered, which is what Karn's rule is for (RFC 6298,
    /// section 3). A frame whose copy before the board has certainly discarded counts, from its last sending; there the RFC takes none.
    /// </summary>
    public void Sample(TimeSpan roundTrip)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(roundTrip, TimeSpan.Zero);
        if (Smoothed is { } smoothed)
        {
            Variation = Variation * 3 / 4 + (smoothed - roundTrip).Duration() / 4;
            Smoothed = smoothed * 7 / 8 + roundTrip / 8;
        }
        else
        {
            Smoothed = roundTrip;
            Variation = roundTrip / 2;
        }
        var margin = Variation * 4 > _granularity ? Variation * 4 : _granularity;
        Timeout = Bound(Smoothed.Value + margin);
    }

    /// <summary>Doubles the time-out after it has passed in vain, up to the cap: RFC 6298, section 5.5.</summary>
    public void BackOff() => Timeout = Bound(Timeout * 2);

    private TimeSpan Bound(TimeSpan timeout) => timeout < _floor ? _floor : timeout > _cap ? _cap : timeout;
}

namespace Board.Emulator;

/// <summary>A head as its output pin shows it: a pen that follows its servo's pulses, or a dot that is on or off.</summary>
public sealed class GantryHead(bool isPen)
{
    private const double DownAboveUs = 1440;
    private const double ServoLeastUs = 900;
    private const double ServoMostUs = 2100;

    private ulong roseAt;

    public bool IsPen => isPen;

    /// <summary>The pen is down, or the dot is on.</summary>
    public bool Works { get; private set; }

    /// <summary>Length of the last servo pulse in us, 0 before the first.</summary>
    public double PulseUs { get; private set; }

    /// <summary>From the beginning of the last pulse to that of the one before, in us.</summary>
    public double PeriodUs { get; private set; }

    /// <summary>Pulses that no servo is made for.</summary>
    public long BadPulses { get; private set; }

    internal Action Save()
    {
        var (works, pulse, period, bad, rose) = (Works, PulseUs, PeriodUs, BadPulses, roseAt);
        return () => (Works, PulseUs, PeriodUs, BadPulses, roseAt) = (works, pulse, period, bad, rose);
    }

    public void Take(bool isHigh, ulong cycle)
    {
        if (!isPen)
        {
            Works = isHigh;
            return;
        }
        if (isHigh)
        {
            PeriodUs = roseAt == 0 ? 0 : AvrChip.Microseconds(cycle - roseAt);
            roseAt = cycle;
        }
        else if (roseAt != 0)
        {
            PulseUs = AvrChip.Microseconds(cycle - roseAt);
            BadPulses += PulseUs is < ServoLeastUs or > ServoMostUs ? 1 : 0;
            Works = PulseUs > DownAboveUs;
        }
    }
}

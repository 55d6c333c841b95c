namespace Bridge.Wire;

/// <summary>Eight-bit serial number arithmetic: RFC 1982, section 3.</summary>
public static class SerialNumber
{
    /// <summary>Most that may be added to a number so that the sum counts as later: 127.</summary>
    public const int MaxStep = 127;

    /// <summary>A number and <paramref name="step"/> (0 to 127), modulo 256.</summary>
    public static byte Add(byte number, int step)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(step);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(step, MaxStep);
        return (byte)(number + step);
    }

    /// <summary>Below, at or above zero as <paramref name="left"/> is earlier than, equal to or later than <paramref name="right"/>;
    /// null where they are exactly half the circle (128) apart, which has no order.</summary>
    public static int? Compare(byte left, byte right)
    {
        var ahead = (byte)(left - right);
        return ahead switch
        {
            0 => 0,
            128 => null,
            < 128 => 1,
            _ => -1,
        };
    }
}

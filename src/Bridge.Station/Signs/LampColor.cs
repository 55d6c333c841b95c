namespace Bridge.Station;

/// <summary>Colours of lamps, as IEC 60204-1 and IEC 60073 give them a meaning.</summary>
public enum LampColor
{
    /// <summary>Emergency: the e-stop, motors off.</summary>
    Red,

    /// <summary>Abnormal: the machine holds or waits for a reason that nobody asked for.</summary>
    Yellow,

    /// <summary>Normal: it works.</summary>
    Green,

    /// <summary>Somebody must act: start it, or go on.</summary>
    Blue,

    /// <summary>Neutral: none of these.</summary>
    White,
}

namespace Bridge.Jobs;

/// <summary>An axis by its name (ISO 841).</summary>
public enum AxisName
{
    /// <summary>X.</summary>
    X,

    /// <summary>Y.</summary>
    Y,

    /// <summary>Z.</summary>
    Z,
}

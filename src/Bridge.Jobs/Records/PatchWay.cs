namespace Bridge.Jobs;

/// <summary>How a patch is worked: the heading bits of its record.</summary>
[Flags]
public enum PatchWay : byte
{
    /// <summary>Rows along X, both axes growing.</summary>
    AlongX = 0,

    /// <summary>Rows run along Y.</summary>
    AlongY = 1,

    /// <summary>X goes negative from the corner.</summary>
    XFalls = 2,

    /// <summary>Y goes negative from the corner.</summary>
    YFalls = 4,
}

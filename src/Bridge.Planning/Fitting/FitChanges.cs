namespace Bridge.Planning;

/// <summary>What may be changed about a shape so that its job fits the store.</summary>
[Flags]
public enum FitChanges
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>It may be turned about Z by quarters.</summary>
    Turn = 1,

    /// <summary>It may be laid on another face, and turned then.</summary>
    Lay = 2,

    /// <summary>A picture may have another threshold.</summary>
    Grey = 4,

    /// <summary>Closed hollows may be worked solid.</summary>
    Solid = 8,

    /// <summary>Solid parts may be made hollow.</summary>
    Hollow = 16,

    /// <summary>Layers that are nearly alike may be made alike, so that `again` does them.</summary>
    Even = 32,

    /// <summary>Single cells and short runs may be put in or left out where that saves records.</summary>
    Smooth = 64,

    /// <summary>It may be made smaller.</summary>
    Size = 128,

    /// <summary>All of these.</summary>
    All = 255,
}

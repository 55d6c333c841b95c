namespace Bridge.Jobs;

/// <summary>The end that works.</summary>
public enum Head : byte
{
    /// <summary>The first head: build, or the first pen.</summary>
    A = 0,

    /// <summary>The second head: support, or the second pen.</summary>
    B = 1,
}

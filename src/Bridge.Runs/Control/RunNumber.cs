using System.Security.Cryptography;

namespace Bridge.Runs;

/// <summary>Numbers of runs on the wire: 1 to 65534. The highest of 16 bits is the board's own, for a stored job that its button starts.</summary>
public static class RunNumber
{
    private const ushort Highest = ushort.MaxValue - 1;

    /// <summary>A new one, by chance.</summary>
    public static ushort New() => (ushort)RandomNumberGenerator.GetInt32(1, Highest + 1);

    /// <summary>The one after another; after the highest comes 1.</summary>
    public static ushort After(ushort before) => before >= Highest ? (ushort)1 : (ushort)(before + 1);
}

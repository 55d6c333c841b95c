namespace Board.Emulator;

/// <summary>Why a chip begins from the beginning: the bits of its reset flags register MCUSR (DS40002061A, section 11.9.1).</summary>
[Flags]
public enum ResetCause : byte
{
    /// <summary>No flag: something cleared them before the program began, as some boot loaders do.</summary>
    None = 0,
    PowerOn = 1,
    External = 2,
    BrownOut = 4,
    Watchdog = 8,
}

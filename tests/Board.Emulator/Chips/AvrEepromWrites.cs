namespace Board.Emulator;

/// <summary>On silicon a write keeps the EEPROM busy for 3.4 ms (DS40002061A, section 8.6.3), and a bit says so; the emulator's is done at once.</summary>
internal sealed class AvrEepromWrites
{
    private const ushort Control = 0x3F; // EECR in data space (DS40002061A, register summary)
    private const byte WriteBits = 0x06; // EEMPE and EEPE
    private const byte Busy = 0x02;      // EEPE

    private static readonly TimeSpan WriteTime = TimeSpan.FromMilliseconds(3.4);

    private readonly AvrChip chip;

    public AvrEepromWrites(AvrChip chip)
    {
        this.chip = chip;
        chip.WatchRegister(Control, OnControl);
    }

    private void OnControl(uint value)
    {
        if ((value & WriteBits) != WriteBits)
            return;
        AvrLayout.Memory(chip.Handle)[Control] |= Busy;
        chip.At(chip.Cycle + AvrChip.Cycles(WriteTime), () => AvrLayout.Memory(chip.Handle)[Control] &= unchecked((byte)~Busy));
    }
}

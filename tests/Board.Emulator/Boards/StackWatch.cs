namespace Board.Emulator;

/// <summary>How much memory the stack has left untouched: the program paints it at its start.</summary>
public sealed class StackWatch(AvrChip chip)
{
    private const byte Paint = 0xC5; // as ports/atmega328p/reset.c
    private const ushort FirstOfMemory = 0x0100;
    private const ushort LastOfMemory = 0x08FF;

    /// <summary>Octets in the longest run that is still painted.</summary>
    public int Untouched
    {
        get
        {
            var (longest, present) = (0, 0);
            for (var address = FirstOfMemory; address <= LastOfMemory; address++)
            {
                present = chip.ReadData(address) == Paint ? present + 1 : 0;
                longest = Math.Max(longest, present);
            }
            return longest;
        }
    }
}

using System.Buffers.Binary;
using Bridge.Jobs;

namespace Board.Emulator;

/// <summary>
/// Tells of each cell at the moment when the firmware counts it as worked, and as which. The firmware is the very same: what its port offers for this
/// and the chip's port leaves empty is given a function of two instructions in unused flash.
/// </summary>
public sealed class CellTrace
{
    private const int FunctionAddress = 0x7FF0;
    private const ushort Register = 0xB8; // TWBR, of the two-wire interface, which is not used (DS40002061A, register summary)

    // How avr-gcc passes (context, head, x, y, layer): in registers, which are the first octets of data space.
    private const ushort HeadRegister = 22;
    private const ushort XRegister = 20;
    private const ushort YRegister = 18;
    private const ushort LayerRegister = 16;

    private readonly AvrChip chip;

    public CellTrace(AvrChip chip)
    {
        this.chip = chip;
        chip.WriteFlash(FunctionAddress, [0x10, 0x92, (byte)Register, 0, 0x08, 0x95]); // sts TWBR, r1; ret
        chip.WatchRegister(Register, _ => Worked?.Invoke(
            new WorkedPlace(new Cell(Pair(XRegister), Pair(YRegister)), Pair(LayerRegister), (Head)Pair(HeadRegister, 1))));
    }

    public event Action<WorkedPlace>? Worked;

    /// <summary>To be called after each reset, once the firmware has put itself together.</summary>
    public void Begin()
    {
        var port = (ushort)Pair(Firmware.AddressOf("board")); // a board begins with the pointer to its port
        if (port == 0)
            throw new InvalidOperationException("The firmware has not begun yet.");
        var place = (ushort)(port + Firmware.WorkedOffset);
        chip.WriteData(place, FunctionAddress / 2 & 0xFF);
        chip.WriteData((ushort)(place + 1), FunctionAddress / 2 >> 8);
    }

    private int Pair(int address, int count = 2)
    {
        Span<byte> octets = stackalloc byte[2];
        octets.Clear();
        chip.Memory((ushort)address, count).CopyTo(octets);
        return BinaryPrimitives.ReadUInt16LittleEndian(octets);
    }
}

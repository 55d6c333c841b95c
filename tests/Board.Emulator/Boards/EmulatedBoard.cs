using Bridge.Jobs;

namespace Board.Emulator;

/// <summary>The reference firmware on an emulated chip, wired to a machine.</summary>
public sealed class EmulatedBoard : IDisposable
{
    /// <summary>A board just after power-on, its carriage somewhere in the middle.</summary>
    public EmulatedBoard(Machine machine)
        : this(machine, (700, 900, 500))
    {
    }

    /// <summary>A board just after power-on, its carriage at a place in steps from the centre of cell (0, 0) on layer 0.</summary>
    public EmulatedBoard(Machine machine, (int X, int Y, int Z) start)
    {
        Machine = machine;
        Chip = new AvrChip(Firmware.Binary);
        Gantry = new VirtualGantry(Chip, machine, start);
        Stack = new StackWatch(Chip);
    }

    public Machine Machine { get; }

    public AvrChip Chip { get; }

    public VirtualGantry Gantry { get; }

    public StackWatch Stack { get; }

    /// <summary>A clock that is the chip's.</summary>
    public TimeProvider Clock => new BoardTime(Chip);

    /// <summary>A serial line to it.</summary>
    public BoardLine OpenLine() => new(Chip);

    public void Dispose() => Chip.Dispose();
}

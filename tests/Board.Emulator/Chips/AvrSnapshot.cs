using System.Runtime.InteropServices;

namespace Board.Emulator;

/// <summary>
/// A moment of an emulated chip and its wires, to which it can be taken back: ten thousand trials need one way up to the moment that they begin at.
/// </summary>
public sealed unsafe partial class AvrSnapshot
{
    private readonly AvrChip chip;
    private readonly byte[] emulator;
    private readonly byte[] memory;
    private readonly uint[] signals;
    private readonly Action[] restoreParts;

    internal AvrSnapshot(AvrChip chip, IEnumerable<Func<Action>> parts)
    {
        this.chip = chip;
        emulator = new Span<byte>((void*)chip.Handle, (int)SizeOf(chip.Handle)).ToArray();
        memory = AvrLayout.Memory(chip.Handle).ToArray();
        signals = [.. Enumerable.Range(0, AvrLayout.Signals(chip.Handle)).Select(index => *AvrLayout.SignalValue(chip.Handle, index))];
        restoreParts = [.. parts.Select(save => save())];
    }

    /// <summary>Takes the chip back, and all that is wired to it.</summary>
    public void Restore()
    {
        emulator.CopyTo(new Span<byte>((void*)chip.Handle, emulator.Length));
        memory.CopyTo(AvrLayout.Memory(chip.Handle));
        for (var index = 0; index < signals.Length; index++)
            *AvrLayout.SignalValue(chip.Handle, index) = signals[index];
        foreach (var restore in restoreParts)
            restore();
    }

    /// <summary>The emulator keeps a chip and its devices in one block of the heap.</summary>
    [LibraryImport("libc", EntryPoint = "malloc_usable_size")]
    private static partial nuint SizeOf(nint block);
}

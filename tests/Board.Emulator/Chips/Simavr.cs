using System.Runtime.InteropServices;

namespace Board.Emulator;

/// <summary>
/// The calls of libsimavr that an emulated chip needs. The library (GPL-3) is loaded from the system where it is installed, and only by tests.
/// </summary>
internal static unsafe partial class Simavr
{
    public const string Library = "libsimavr.so.2";

    /// <summary>The program is done: it sleeps with interrupts off.</summary>
    public const int Done = 6;

    /// <summary>The program ran into an illegal instruction or address.</summary>
    public const int Crashed = 7;

    /// <summary>A call code of four characters, the first one highest.</summary>
    public static uint Code(char first, char second, char third, char fourth) =>
        ((uint)first << 24) | ((uint)second << 16) | ((uint)third << 8) | fourth;

    [LibraryImport(Library, EntryPoint = "avr_make_mcu_by_name", StringMarshalling = StringMarshalling.Utf8)]
    public static partial nint Make(string name);

    [LibraryImport(Library, EntryPoint = "avr_init")]
    public static partial int Initialize(nint chip);

    [LibraryImport(Library, EntryPoint = "avr_reset")]
    public static partial void Reset(nint chip);

    [LibraryImport(Library, EntryPoint = "avr_terminate")]
    public static partial void Terminate(nint chip);

    [LibraryImport(Library, EntryPoint = "avr_loadcode")]
    public static partial void LoadCode(nint chip, byte* code, uint size, uint address);

    [LibraryImport(Library, EntryPoint = "avr_run")]
    public static partial int Run(nint chip);

    [LibraryImport(Library, EntryPoint = "avr_ioctl")]
    public static partial int Control(nint chip, uint code, void* parameter);

    [LibraryImport(Library, EntryPoint = "avr_io_getirq")]
    public static partial nint GetSignal(nint chip, uint code, int index);

    [LibraryImport(Library, EntryPoint = "avr_get_interrupt_irq")]
    public static partial nint GetInterruptSignals(nint chip, byte vector);

    [LibraryImport(Library, EntryPoint = "avr_raise_interrupt")]
    public static partial int RaiseInterrupt(nint chip, nint vector);

    [LibraryImport(Library, EntryPoint = "avr_iomem_getirq", StringMarshalling = StringMarshalling.Utf8)]
    public static partial nint GetRegisterSignal(nint chip, ushort address, string? name, int index);

    [LibraryImport(Library, EntryPoint = "avr_raise_irq")]
    public static partial void Raise(nint signal, uint value);

    [LibraryImport(Library, EntryPoint = "avr_irq_register_notify")]
    public static partial void Watch(nint signal, delegate* unmanaged[Cdecl]<nint, uint, nint, void> notify, nint parameter);

    [LibraryImport(Library, EntryPoint = "avr_extint_set_strict_lvl_trig")]
    public static partial void PollExternalInterrupt(nint chip, byte number, byte isPolled);

    [LibraryImport(Library, EntryPoint = "avr_cycle_timer_register")]
    public static partial void SetTimer(nint chip, ulong cyclesAhead, delegate* unmanaged[Cdecl]<nint, ulong, nint, ulong> timer, nint parameter);

    [LibraryImport(Library, EntryPoint = "avr_cycle_timer_cancel")]
    public static partial void CancelTimer(nint chip, delegate* unmanaged[Cdecl]<nint, ulong, nint, ulong> timer, nint parameter);

    [LibraryImport(Library, EntryPoint = "avr_core_watch_read")]
    public static partial byte ReadData(nint chip, ushort address);

    [LibraryImport(Library, EntryPoint = "avr_core_watch_write")]
    public static partial void WriteData(nint chip, ushort address, byte value);

    [LibraryImport(Library, EntryPoint = "avr_global_logger_set")]
    public static partial void SetLogger(delegate* unmanaged[Cdecl]<nint, int, nint, nint, void> logger);
}

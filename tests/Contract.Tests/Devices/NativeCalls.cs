using System.Runtime.InteropServices;

namespace Contract.Tests;

/// <summary>The calls of the native board, as its header gives them.</summary>
internal static partial class NativeCalls
{
    public const string Library = "bridge_native";

    [LibraryImport(Library, EntryPoint = "native_size")]
    public static partial nuint Size();

    [LibraryImport(Library, EntryPoint = "native_create")]
    public static partial void Create(nint memory, byte resetReason);

    [LibraryImport(Library, EntryPoint = "native_destroy")]
    public static partial void Destroy(nint memory);

    [LibraryImport(Library, EntryPoint = "native_reset")]
    public static partial void Reset(nint memory, byte resetReason);

    [LibraryImport(Library, EntryPoint = "native_receive")]
    public static partial nuint Receive(nint memory, ReadOnlySpan<byte> octets, nuint length);

    [LibraryImport(Library, EntryPoint = "native_take")]
    public static partial nuint Take(nint memory, Span<byte> octets, nuint room);

    [LibraryImport(Library, EntryPoint = "native_advance")]
    public static partial void Advance(nint memory, ulong microseconds);

    [LibraryImport(Library, EntryPoint = "native_now")]
    public static partial ulong Now(nint memory);

    [LibraryImport(Library, EntryPoint = "native_set_axis")]
    public static partial void SetAxis(nint memory, byte axis, int place, int closesAt, byte closesUp, int least, int most);

    [LibraryImport(Library, EntryPoint = "native_place")]
    public static partial int Place(nint memory, byte axis);

    [LibraryImport(Library, EntryPoint = "native_steps")]
    public static partial uint Steps(nint memory, byte axis);

    [LibraryImport(Library, EntryPoint = "native_set_e_stop")]
    public static partial void SetEStop(nint memory, byte open);

    [LibraryImport(Library, EntryPoint = "native_set_start")]
    public static partial void SetStart(nint memory, byte pressed);

    [LibraryImport(Library, EntryPoint = "native_set_endstop")]
    public static partial void SetEndstop(nint memory, byte axis, byte fault);

    [LibraryImport(Library, EntryPoint = "native_drivers")]
    public static partial byte Drivers(nint memory);

    [LibraryImport(Library, EntryPoint = "native_wrong")]
    public static partial uint Wrong(nint memory, byte what);

    [LibraryImport(Library, EntryPoint = "native_worked")]
    public static partial uint Worked(nint memory);

    [LibraryImport(Library, EntryPoint = "native_worked_cell")]
    public static partial void WorkedCell(nint memory, uint index, Span<ushort> cell);

    [LibraryImport(Library, EntryPoint = "native_worked_place")]
    public static partial void WorkedPlace(nint memory, uint index, Span<int> place);
}

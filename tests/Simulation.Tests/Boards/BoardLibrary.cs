using System.Collections.Concurrent;
using System.Runtime.InteropServices;

namespace Simulation.Tests;

/// <summary>The calls of one build of the native board, and memory for boards of it. Several builds may be loaded, and several boards run, at a time.</summary>
internal sealed unsafe class BoardLibrary
{
    private static readonly Lazy<BoardLibrary> Sound = new(() => new BoardLibrary(BoardSource.Build()));

    private readonly ConcurrentBag<nint> _memory = [];
    private readonly delegate* unmanaged<nuint> _size;

    public BoardLibrary(string path)
    {
        var library = NativeLibrary.Load(path);
        nint Call(string name) => NativeLibrary.GetExport(library, $"native_{name}");
        _size = (delegate* unmanaged<nuint>)Call("size");
        Create = (delegate* unmanaged<nint, byte, void>)Call("create");
        Reset = (delegate* unmanaged<nint, byte, void>)Call("reset");
        Receive = (delegate* unmanaged<nint, byte*, nuint, nuint>)Call("receive");
        ReceiveError = (delegate* unmanaged<nint, void>)Call("receive_error");
        Take = (delegate* unmanaged<nint, byte*, nuint, nuint>)Call("take");
        Advance = (delegate* unmanaged<nint, ulong, void>)Call("advance");
        SetTurn = (delegate* unmanaged<nint, ushort, void>)Call("set_turn");
        Now = (delegate* unmanaged<nint, ulong>)Call("now");
        SetAxis = (delegate* unmanaged<nint, byte, int, int, byte, int, int, void>)Call("set_axis");
        Steps = (delegate* unmanaged<nint, byte, uint>)Call("steps");
        SetEStop = (delegate* unmanaged<nint, byte, void>)Call("set_e_stop");
        SetStart = (delegate* unmanaged<nint, byte, void>)Call("set_start");
        SetEndstop = (delegate* unmanaged<nint, byte, byte, void>)Call("set_endstop");
        Wrong = (delegate* unmanaged<nint, byte, uint>)Call("wrong");
        Worked = (delegate* unmanaged<nint, uint>)Call("worked");
        WorkedCell = (delegate* unmanaged<nint, uint, ushort*, void>)Call("worked_cell");
        WorkedPlace = (delegate* unmanaged<nint, uint, int*, void>)Call("worked_place");
        FailAfterWrites = (delegate* unmanaged<nint, uint, byte, byte, void>)Call("fail_after_writes");
        LastingWrites = (delegate* unmanaged<nint, uint>)Call("lasting_writes");
        State = (delegate* unmanaged<nint, byte>)Call("state");
        Cause = (delegate* unmanaged<nint, byte>)Call("cause");
    }

    /// <summary>The core as it is.</summary>
    public static BoardLibrary AsItIs => Sound.Value;

    public readonly delegate* unmanaged<nint, byte, void> Create;
    public readonly delegate* unmanaged<nint, byte, void> Reset;
    public readonly delegate* unmanaged<nint, byte*, nuint, nuint> Receive;
    public readonly delegate* unmanaged<nint, void> ReceiveError;
    public readonly delegate* unmanaged<nint, byte*, nuint, nuint> Take;
    public readonly delegate* unmanaged<nint, ulong, void> Advance;
    public readonly delegate* unmanaged<nint, ushort, void> SetTurn;
    public readonly delegate* unmanaged<nint, ulong> Now;
    public readonly delegate* unmanaged<nint, byte, int, int, byte, int, int, void> SetAxis;
    public readonly delegate* unmanaged<nint, byte, uint> Steps;
    public readonly delegate* unmanaged<nint, byte, void> SetEStop;
    public readonly delegate* unmanaged<nint, byte, void> SetStart;
    public readonly delegate* unmanaged<nint, byte, byte, void> SetEndstop;
    public readonly delegate* unmanaged<nint, byte, uint> Wrong;
    public readonly delegate* unmanaged<nint, uint> Worked;
    public readonly delegate* unmanaged<nint, uint, ushort*, void> WorkedCell;
    public readonly delegate* unmanaged<nint, uint, int*, void> WorkedPlace;
    public readonly delegate* unmanaged<nint, uint, byte, byte, void> FailAfterWrites;
    public readonly delegate* unmanaged<nint, uint> LastingWrites;
    public readonly delegate* unmanaged<nint, byte> State;
    public readonly delegate* unmanaged<nint, byte> Cause;

    public nint RentMemory() => _memory.TryTake(out var memory) ? memory : Marshal.AllocHGlobal((nint)_size());

    public void ReturnMemory(nint memory) => _memory.Add(memory);
}

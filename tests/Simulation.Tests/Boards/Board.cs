using Bridge.Jobs;
using Bridge.Wire;

namespace Simulation.Tests;

/// <summary>A board and its gantry: the firmware's core on this machine, in a time that it is given.</summary>
internal sealed unsafe class Board : IDisposable
{
    private const byte AgainstFrame = 2;
    private const double FrameMm = 2; // behind an endstop's closing point

    private static readonly (byte Kind, string Words)[] Wrongs =
    [
        (0, "stepped into a closed endstop"), (1, "stepped without power"), (AgainstFrame, "stepped against the frame"),
        (3, "called a cell worked without power"), (4, "called a cell worked with its pen up or without its dot"), (5, "gave a cell two dots"),
    ];

    private readonly BoardLibrary _library;
    private readonly Machine _machine;
    private readonly nint _memory;
    private readonly int _axes;
    private bool _wasCut; // which it cannot tell from a carriage that stands on its endstop: it goes four ways to leave it, perhaps as far as the frame

    public Board(BoardLibrary library, Machine machine, Random random)
    {
        (_library, _machine, _memory, _axes) = (library, machine, library.RentMemory(), machine.Z is null ? 2 : 3);
        _library.Create(_memory, (byte)ResetReason.PowerOn);
        Place(0, machine.X, random);
        Place(1, machine.Y, random);
        if (machine.Z is { } z)
            Place(2, z, random);
    }

    /// <summary>Microseconds since the beginning.</summary>
    public long Now => (long)_library.Now(_memory);

    public MachineState State => (MachineState)_library.State(_memory);

    public StateCause Cause => (StateCause)_library.Cause(_memory);

    /// <summary>Steps of all axes, to and fro.</summary>
    public long Steps
    {
        get
        {
            var steps = 0L;
            for (byte axis = 0; axis < _axes; axis++)
                steps += _library.Steps(_memory, axis);
            return steps;
        }
    }

    /// <summary>What it did that must never be, or null.</summary>
    public string? Wrong => Array.Find(Wrongs, wrong => _library.Wrong(_memory, wrong.Kind) > 0 && !(_wasCut && wrong.Kind == AgainstFrame)).Words;

    /// <summary>How many cells were worked.</summary>
    public int Worked => (int)_library.Worked(_memory);

    /// <summary>Writes of lasting memory so far.</summary>
    public int LastingWrites => (int)_library.LastingWrites(_memory);

    /// <summary>The main loop takes a turn this often and no oftener; 0, as at first, whenever something comes.</summary>
    public int TurnMicroseconds
    {
        set => _library.SetTurn(_memory, (ushort)value);
    }

    public bool EStopIsOpen
    {
        set => _library.SetEStop(_memory, value ? (byte)1 : (byte)0);
    }

    /// <summary>The axis whose endstop has its wire cut, which reads as a closed one; null for none.</summary>
    public int? CutEndstop
    {
        set
        {
            _wasCut |= value is not null;
            for (byte axis = 0; axis < _axes; axis++)
                _library.SetEndstop(_memory, axis, axis == value ? (byte)2 : (byte)0);
        }
    }

    public bool StartIsPressed
    {
        set => _library.SetStart(_memory, value ? (byte)1 : (byte)0);
    }

    public void Receive(ReadOnlySpan<byte> octets)
    {
        fixed (byte* first = octets)
            Assert.Equal((nuint)octets.Length, _library.Receive(_memory, first, (nuint)octets.Length));
    }

    /// <summary>The receiver misreads an octet.</summary>
    public void MisreadOctet() => _library.ReceiveError(_memory);

    public int Take(Span<byte> octets)
    {
        fixed (byte* first = octets)
            return (int)_library.Take(_memory, first, (nuint)octets.Length);
    }

    public void Advance(long microseconds) => _library.Advance(_memory, (ulong)microseconds);

    public void Reset(ResetReason reason) => _library.Reset(_memory, (byte)reason);

    /// <summary>The supply fails after so many more writes of lasting memory, in the midst of the next one.</summary>
    /// <param name="writes">The writes.</param>
    /// <param name="isWriting">Whether that octet was erased already and was being written.</param>
    /// <param name="erased">Its bits that read as erased then, beside those that are set in any case.</param>
    public void FailAfterWrites(int writes, bool isWriting, byte erased) =>
        _library.FailAfterWrites(_memory, (uint)writes, isWriting ? (byte)1 : (byte)0, erased);

    /// <summary>The cell that was worked there: the one that the core means if the tool is near enough, else the one under the tool.</summary>
    public Position WorkedAt(int index)
    {
        var meant = stackalloc ushort[4];
        var place = stackalloc int[3];
        _library.WorkedCell(_memory, (uint)index, meant);
        _library.WorkedPlace(_memory, (uint)index, place);
        var head = (Head)meant[0];
        var tool = _machine.Tool(head)!;
        var near = tool is HeadTool.Pen ? 0.95 : 0.5; // a pen passes beside the cells of a slanting line
        var x = Under(place[0] + tool.OffsetXMm * _machine.X.StepsPerMm, _machine.X, meant[1], near);
        var y = Under(place[1] + tool.OffsetYMm * _machine.Y.StepsPerMm, _machine.Y, meant[2], near);
        return new Position(new Cell(x, y), _machine.Z is { } z ? Under(place[2], z, meant[3], 0.5) : meant[3], head);
    }

    public void Dispose() => _library.ReturnMemory(_memory);

    private static int Under(double steps, Axis axis, int meant, double near)
    {
        near += axis.BacklashMm / axis.PitchMm + 2 / (axis.PitchMm * axis.StepsPerMm); // the play, and what steps are rounded to
        var beside = steps / (axis.PitchMm * axis.StepsPerMm) - meant;
        return Math.Abs(beside) <= near ? meant : meant + (int)Math.Round(beside);
    }

    private void Place(byte number, Axis axis, Random random)
    {
        var room = number == 2 ? 0 : new[] { _machine.A, _machine.B }.OfType<HeadTool>()
            .Max(tool => Math.Max(Math.Abs(tool.OffsetXMm), Math.Abs(tool.OffsetYMm)));
        var far = (axis.Cells - 1) * axis.PitchMm;
        var closesUp = axis.Endstop == AxisEnd.Max;
        var closesAt = closesUp ? far + axis.EndstopGapMm : -axis.EndstopGapMm;
        var (least, most) = closesUp ? (-room - FrameMm, closesAt + FrameMm) : (closesAt - FrameMm, far + room + FrameMm);
        int Steps(double mm) => (int)Math.Round(mm * axis.StepsPerMm);
        _library.SetAxis(_memory, number, random.Next(Math.Max(1, Steps(far))), Steps(closesAt), closesUp ? (byte)1 : (byte)0, Steps(least), Steps(most));
    }
}

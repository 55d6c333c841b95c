using System.Runtime.InteropServices;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>The firmware's core on this machine, with a gantry of counters.</summary>
internal sealed class NativeUnderTest : IDeviceUnderTest
{
    private static readonly AxisName[] Axes = [AxisName.X, AxisName.Y, AxisName.Z];

    private readonly Machine _machine;
    private readonly nint _memory;
    private readonly List<Position> _worked = [];
    private bool _eStopIsOpen;
    private bool _startIsPressed;

    private NativeUnderTest(Machine machine, int seed)
    {
        NativeCore.Load();
        _machine = machine;
        _memory = Marshal.AllocHGlobal((nint)NativeCalls.Size());
        NativeCalls.Create(_memory, (byte)ResetReason.PowerOn);
        var random = new Random(seed);
        foreach (var axis in Axes.Where(axis => axis != AxisName.Z || machine.Z is not null))
            Stand(axis, random.Next(new AxisFrame(machine, axis).Far));
    }

    private const int Kinds = 6; // of wrongs: native.h

    public static DeviceMaker Maker { get; } = (machine, seed) => new NativeUnderTest(machine, seed);

    public TimeSpan Now => TimeSpan.FromMicroseconds(NativeCalls.Now(_memory));

    public uint? MostStepsPerSecond => 40_000;

    public bool EStopIsOpen
    {
        get => _eStopIsOpen;
        set => NativeCalls.SetEStop(_memory, (_eStopIsOpen = value) ? (byte)1 : (byte)0);
    }

    public bool StartIsPressed
    {
        get => _startIsPressed;
        set => NativeCalls.SetStart(_memory, (_startIsPressed = value) ? (byte)1 : (byte)0);
    }

    public bool DriversAreOn => NativeCalls.Drivers(_memory) != 0;

    public long Wrongs => Enumerable.Range(0, Kinds).Sum(what => NativeCalls.Wrong(_memory, (byte)what));

    public IReadOnlyList<Position> Worked
    {
        get
        {
            while (_worked.Count < NativeCalls.Worked(_memory))
                _worked.Add(WorkedAt((uint)_worked.Count));
            return _worked;
        }
    }

    public void Receive(ReadOnlySpan<byte> octets) =>
        Assert.Equal((nuint)octets.Length, NativeCalls.Receive(_memory, octets, (nuint)octets.Length));

    public byte[] Take()
    {
        var octets = new byte[4096];
        return octets[..(int)NativeCalls.Take(_memory, octets, (nuint)octets.Length)];
    }

    public void Advance(TimeSpan by) => NativeCalls.Advance(_memory, (ulong)by.TotalMicroseconds);

    public void Break(AxisName axis, EndstopFault fault) => NativeCalls.SetEndstop(_memory, (byte)axis, (byte)fault);

    public void Push(AxisName axis, int steps) => Stand(axis, (int)PlaceOf(axis) + steps);

    public double PlaceOf(AxisName axis) => NativeCalls.Place(_memory, (byte)axis);

    public long? StepsOf(AxisName axis) => NativeCalls.Steps(_memory, (byte)axis);

    public void Reset(ResetReason reason) => NativeCalls.Reset(_memory, (byte)reason);

    public void Dispose()
    {
        NativeCalls.Destroy(_memory);
        Marshal.FreeHGlobal(_memory);
    }

    private void Stand(AxisName axis, int place)
    {
        var frame = new AxisFrame(_machine, axis);
        NativeCalls.SetAxis(_memory, (byte)axis, place, frame.ClosesAt, frame.ClosesUp ? (byte)1 : (byte)0, frame.Least, frame.Most);
    }

    private Position WorkedAt(uint index)
    {
        Span<ushort> meant = stackalloc ushort[4];
        Span<int> place = stackalloc int[3];
        NativeCalls.WorkedCell(_memory, index, meant);
        NativeCalls.WorkedPlace(_memory, index, place);
        return new ToolPlace(_machine).CellOf(new Position(new Cell(meant[1], meant[2]), meant[3], (Head)meant[0]), place);
    }
}

using System.Collections.Concurrent;
using Board.Emulator;
using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>The firmware on an emulated ATmega328P, seen at its pins.</summary>
internal sealed class EmulatedUnderTest : IDeviceUnderTest
{
    private static readonly ConcurrentDictionary<Machine, ConcurrentBag<EmulatedBench>> Benches =
        new([new(ContractMachines.Plotter, []), new(ContractMachines.Dots, [])], ReferenceEqualityComparer.Instance);

    private readonly Machine _machine;
    private readonly EmulatedBench _bench;
    private bool _startIsPressed;

    private EmulatedUnderTest(Machine machine, int seed)
    {
        _machine = machine;
        _bench = Benches.TryGetValue(machine, out var free) && free.TryTake(out var bench) ? bench : new EmulatedBench(machine);
        _bench.PowerOn(seed);
    }

    public static DeviceMaker Maker { get; } = (machine, seed) => new EmulatedUnderTest(machine, seed);

    public TimeSpan Now => TimeSpan.FromTicks((long)(Chip.Cycle * TimeSpan.TicksPerSecond / AvrChip.FrequencyHz));

    public uint? MostStepsPerSecond => 40_000;

    public double SecondsToPlanAnAct => 0.00065;

    public bool EStopIsOpen
    {
        get => Gantry.IsEStopOpen;
        set => Gantry.SetEStop(value);
    }

    public bool StartIsPressed
    {
        get => _startIsPressed;
        set => Gantry.SetStartButton(_startIsPressed = value);
    }

    public bool DriversAreOn => Gantry.AreDriversOn;

    // Pulses of a servo are not judged: a compare value that is written within a pulse is buffered on silicon (DS40002061A, section 18.7.3), not here.
    public long Wrongs => Gantry.StepsWithoutDrivers + Gantry.StepsOfNoAxis + Gantry.ShortPulses + Gantry.Work.SpoiledDots + _bench.WorkedByNothing
        + Gantry.Axes.Sum(axis => axis.StepsIntoEndstop + axis.StepsStalled)
        + (Chip.Serial.MostWaiting > AvrSerial.ReceiverHolds ? 1 : 0);

    public IReadOnlyList<Position> Worked => _bench.Worked;

    private AvrChip Chip => _bench.Board.Chip;

    private VirtualGantry Gantry => _bench.Board.Gantry;

    public object? GetReady() => _bench.GetReady();

    public void KeepReady(object host) => _bench.KeepReady(host);

    public void Receive(ReadOnlySpan<byte> octets) => Chip.Serial.Send(octets);

    public byte[] Take() => _bench.Take();

    public void Advance(TimeSpan by) => Chip.RunFor(by);

    public void Break(AxisName axis, EndstopFault fault)
    {
        Gantry.StickEndstop((int)axis, fault == EndstopFault.StuckOpen);
        Gantry.CutWire((int)axis, fault == EndstopFault.StuckClosed);
    }

    public void Push(AxisName axis, int steps) => Gantry.Axes[(int)axis].Push(steps);

    public double PlaceOf(AxisName axis) => Gantry.Axes[(int)axis].Carriage;

    public long? StepsOf(AxisName axis) => Gantry.Axes[(int)axis].Up + Gantry.Axes[(int)axis].Down;

    /// <summary>For the watchdog the firmware is made to hang, so that it bites.</summary>
    public void Reset(ResetReason reason)
    {
        if (reason == ResetReason.Watchdog)
            HangUntilReset();
        else
            Chip.Reset(reason == ResetReason.PowerOn ? ResetCause.PowerOn : ResetCause.External);
        _bench.Wake();
    }

    public void Dispose()
    {
        if (Benches.TryGetValue(_machine, out var free))
            free.Add(_bench);
        else
            _bench.Dispose();
    }

    private void HangUntilReset()
    {
        var before = Chip.WatchdogResets;
        Chip.Hang();
        Assert.True(Chip.RunUntil(() => Chip.WatchdogResets > before, TimeSpan.FromMilliseconds(100)));
    }
}

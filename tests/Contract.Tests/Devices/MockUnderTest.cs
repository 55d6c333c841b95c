using Bridge.Jobs;
using Bridge.Mock;
using Bridge.Wire;

namespace Contract.Tests;

/// <summary>The mock device.</summary>
internal sealed class MockUnderTest(Machine machine, int seed) : IDeviceUnderTest
{
    private MockDevice _device = new(new Gantry(machine, seed));

    public static DeviceMaker Maker { get; } = (machine, seed) => new MockUnderTest(machine, seed);

    public TimeSpan Now { get; private set; }

    public uint? MostStepsPerSecond => null;

    public bool EStopIsOpen
    {
        get => _device.Gantry.EStopIsOpen;
        set
        {
            if (value)
                _device.Gantry.PressEStop();
            else
                _device.Gantry.ReleaseEStop();
        }
    }

    public bool StartIsPressed
    {
        get => _device.Gantry.StartIsPressed;
        set => _device.Gantry.StartIsPressed = value;
    }

    public bool DriversAreOn => _device.Gantry.DriversAreOn;

    public long Wrongs => _device.Gantry.MovesWithoutPower + (HasStalled ? 1 : 0);

    public IReadOnlyList<Position> Worked => _device.Gantry.Worked;

    private bool HasStalled => _device.Gantry.X.HasStalled || _device.Gantry.Y.HasStalled || _device.Gantry.Z is { HasStalled: true };

    public void Receive(ReadOnlySpan<byte> octets) => _device.Receive(octets, Now);

    public byte[] Take() => _device.Take().ToArray();

    public void Advance(TimeSpan by) => _device.AdvanceTo(Now += by);

    public void Break(AxisName axis, EndstopFault fault) => _device.Gantry.Axis(axis)!.Fault = fault;

    public void Push(AxisName axis, int steps) => _device.Gantry.Slip(axis, steps);

    public double PlaceOf(AxisName axis) => _device.Gantry.Axis(axis)!.PlaceMm * machine.AxisOf(axis).StepsPerMm;

    public long? StepsOf(AxisName axis) => null;

    public void Reset(ResetReason reason) => _device = _device.Restart(reason, Now);

    public void Dispose()
    {
    }
}

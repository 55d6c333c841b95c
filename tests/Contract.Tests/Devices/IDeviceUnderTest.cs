using Bridge.Jobs;
using Bridge.Mock;

namespace Contract.Tests;

/// <summary>A device and the gantry that it drives, in a time that the test gives. Lengths are steps.</summary>
public interface IDeviceUnderTest : IDisposable
{
    /// <summary>Time since the beginning.</summary>
    TimeSpan Now { get; }

    /// <summary>The fastest that an axis can step, in steps/s; null where there is no such limit.</summary>
    uint? MostStepsPerSecond { get; }

    /// <summary>
    /// What passes between two acts of a job, in seconds: a controller of 16 MHz has to work out the first steps of the next one. The others take no
    /// time to think.
    /// </summary>
    double SecondsToPlanAnAct => 0;

    /// <summary>Whether the e-stop contact is open.</summary>
    bool EStopIsOpen { get; set; }

    /// <summary>Whether the start button is pressed.</summary>
    bool StartIsPressed { get; set; }

    /// <summary>Whether the motors' drivers are on.</summary>
    bool DriversAreOn { get; }

    /// <summary>Things done that must never be: steps without power, into a closed endstop or against the frame.</summary>
    long Wrongs { get; }

    /// <summary>Cells worked, in order, each where the tool really was.</summary>
    IReadOnlyList<Position> Worked { get; }

    /// <summary>
    /// Goes back to the moment at which a host had made such a device ready, and gives what that host knew then; null where it cannot, or where no
    /// host has yet.
    /// </summary>
    object? GetReady() => null;

    /// <summary>A host has made it ready, and knows this.</summary>
    void KeepReady(object host)
    {
    }

    /// <summary>Puts octets on the line to the device.</summary>
    void Receive(ReadOnlySpan<byte> octets);

    /// <summary>Takes the octets that the device has sent.</summary>
    byte[] Take();

    /// <summary>Lets time pass.</summary>
    void Advance(TimeSpan by);

    /// <summary>Breaks an endstop, or mends it.</summary>
    void Break(AxisName axis, EndstopFault fault);

    /// <summary>Moves a carriage by some steps, motor and all: the device does not know of it.</summary>
    void Push(AxisName axis, int steps);

    /// <summary>Where an axis really is, from the centre of cell 0.</summary>
    double PlaceOf(AxisName axis);

    /// <summary>Steps that an axis has made, to and fro; null where the device counts none.</summary>
    long? StepsOf(AxisName axis);

    /// <summary>Starts the controller again, as a reset does: by power, from outside or by the watchdog. The gantry stays as it is.</summary>
    void Reset(Bridge.Wire.ResetReason reason);
}

using System.Diagnostics;
using Bridge.Jobs;

namespace Bridge.Motion;

/// <summary>The moving part that carries the heads of one machine: where it stands for a cell, and how fast it may go.</summary>
public sealed class Carriage(Machine machine)
{
    /// <summary>
    /// Where it stands with a position's head over its cell: cell · pitch - offset along X and Y, layer · pitch along Z.
    /// </summary>
    public Place PlaceOf(Position position)
    {
        var tool = machine.Tool(position.Head) ?? throw new UnreachableException("The machine has the head.");
        return new Place(
            position.Cell.X * machine.X.PitchMm - tool.OffsetXMm,
            position.Cell.Y * machine.Y.PitchMm - tool.OffsetYMm,
            position.Layer * (machine.Z?.PitchMm ?? 0));
    }

    /// <summary>
    /// The profile of a straight move along a way, rest to rest, all axes starting and stopping together. With L the way's
    /// length and d its part along an axis, the speed along it is the least of the axes' top speed · L / |d|; so is the
    /// acceleration.
    /// </summary>
    public Trapezoid ProfileAlong(Place way)
    {
        var length = way.LengthMm;
        if (length == 0)
            return default;
        var (speed, accel) = (double.PositiveInfinity, double.PositiveInfinity);
        Limit(machine.X, way.XMm);
        Limit(machine.Y, way.YMm);
        if (machine.Z is { } z)
            Limit(z, way.ZMm);
        return new Trapezoid(length, speed, accel);

        void Limit(Axis axis, double part)
        {
            if (part == 0)
                return;
            var ratio = length / Math.Abs(part);
            speed = Math.Min(speed, axis.TopSpeedMmS * ratio);
            accel = Math.Min(accel, axis.AccelMmS2 * ratio);
        }
    }
}

namespace Board.Emulator;

/// <summary>A rising edge on a step pin.</summary>
/// <param name="Axis">0 X, 1 Y, 2 Z.</param>
/// <param name="Up">The direction pin at that moment.</param>
/// <param name="Cycle">When.</param>
public readonly record struct StepEdge(int Axis, bool Up, ulong Cycle);

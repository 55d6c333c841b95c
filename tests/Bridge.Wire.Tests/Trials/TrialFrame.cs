namespace Bridge.Wire.Tests;

/// <summary>A frame on a simulated line: when it arrives, its octets on the line, and what it says unless it is damaged.</summary>
internal readonly record struct TrialFrame<T>(TimeSpan At, int Length, T Content, bool IsDamaged);

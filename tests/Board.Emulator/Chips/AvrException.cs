namespace Board.Emulator;

/// <summary>The emulated program came to an end that no program may come to.</summary>
public sealed class AvrException(string message) : Exception(message);

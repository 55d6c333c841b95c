namespace Board.Emulator;

/// <summary>A pin of the controller, for instance D2.</summary>
/// <param name="Port">B, C or D.</param>
/// <param name="Bit">0 to 7.</param>
public readonly record struct Pin(char Port, int Bit)
{
    public override string ToString() => $"{Port}{Bit}";
}

/// <summary>A level that a pin has taken.</summary>
/// <param name="Pin">Which pin.</param>
/// <param name="IsHigh">Its new level.</param>
/// <param name="Cycle">When, in clock cycles since the chip was made; the instruction that did it began then.</param>
public readonly record struct PinEdge(Pin Pin, bool IsHigh, ulong Cycle);

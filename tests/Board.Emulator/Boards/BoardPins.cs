namespace Board.Emulator;

/// <summary>The pin map of the reference board, as ports/atmega328p/pins.h says it.</summary>
public static class BoardPins
{
    public static readonly Pin EStop = new('D', 2);
    public static readonly Pin StartButton = new('C', 4);
    public static readonly Pin Disable = new('D', 4);

    /// <summary>Of axis 0 (X), 1 (Y) or 2 (Z).</summary>
    public static Pin Step(int axis) => new('B', axis);

    /// <summary>High: up.</summary>
    public static Pin Direction(int axis) => new('D', 5 + axis);

    /// <summary>High: reached.</summary>
    public static Pin Endstop(int axis) => new('C', 1 + axis);

    /// <summary>Of head 0 (a) or 1 (b).</summary>
    public static Pin Head(int head) => head == 0 ? new Pin('B', 3) : new Pin('D', 3);
}

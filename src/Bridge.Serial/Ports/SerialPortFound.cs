namespace Bridge.Serial;

/// <summary>A serial port that a device may be on.</summary>
/// <param name="Name">The name to open it by.</param>
/// <param name="Known">What is known of it, for a person to read; empty if nothing is.</param>
public sealed record SerialPortFound(string Name, string Known);

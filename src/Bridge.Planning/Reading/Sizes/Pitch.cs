namespace Bridge.Planning;

/// <summary>The distance from cell to cell in mm along each axis; all above 0.</summary>
/// <param name="X">Along X.</param>
/// <param name="Y">Along Y.</param>
/// <param name="Z">From layer to layer.</param>
public readonly record struct Pitch(double X, double Y, double Z);

namespace Bridge.Station;

/// <summary>What the contacts say at one look. A wire that is cut reads as an e-stop or a hold that is pressed, and as a start that is not.</summary>
/// <param name="EStopIsClosed">The e-stop's contact is closed, as it is while nobody presses it.</param>
/// <param name="HoldIsClosed">The hold button's contact is closed, as it is while nobody presses it.</param>
/// <param name="StartIsPressed">The start button's contact is closed, as it is while somebody presses it.</param>
public readonly record struct ContactReading(bool EStopIsClosed, bool HoldIsClosed, bool StartIsPressed)
{
    /// <summary>What is read where nothing can be read.</summary>
    public static ContactReading Lost { get; }
}

namespace Bridge.Station;

/// <summary>What is wired to which pins.</summary>
/// <param name="Expander">The chip whose pins they are; null for the host's own.</param>
/// <param name="Contacts">The contacts.</param>
/// <param name="Lamps">The lamps, by colour; those that are there.</param>
/// <param name="Display">The display; null without one.</param>
public sealed record StationWiring(ExpanderPlace? Expander, ContactPins Contacts, IReadOnlyDictionary<LampColor, int> Lamps, DisplayPins? Display)
{
    /// <summary>Every pin that is used, each once.</summary>
    public IEnumerable<int> Pins => [Contacts.EStop, Contacts.Hold, Contacts.Start, .. Lamps.Values, .. Display?.All ?? []];
}

/// <summary>Where an expander (MCP23017) is.</summary>
/// <param name="Bus">The host's I2C bus, 0 to 255.</param>
/// <param name="Address">Its address there, 32 to 39.</param>
public sealed record ExpanderPlace(int Bus, int Address);

/// <summary>The pins of the contacts, each between its pin and ground.</summary>
/// <param name="EStop">Normally closed: the second contact of the e-stop.</param>
/// <param name="Hold">Normally closed: a push-button that opens.</param>
/// <param name="Start">Normally open: a push-button that closes.</param>
public sealed record ContactPins(int EStop, int Hold, int Start);

/// <summary>The pins of a character display with an HD44780 or like, by four data lines.</summary>
/// <param name="Columns">Characters of a line: 16 or 20.</param>
/// <param name="Lines">2 or 4.</param>
/// <param name="RegisterSelect">The pin of RS.</param>
/// <param name="Enable">The pin of E.</param>
/// <param name="Data">The pins of D4 to D7.</param>
public sealed record DisplayPins(int Columns, int Lines, int RegisterSelect, int Enable, IReadOnlyList<int> Data)
{
    internal IEnumerable<int> All => [RegisterSelect, Enable, .. Data];
}

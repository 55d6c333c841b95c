namespace Bridge.Cli;

/// <summary>One step of a setup.</summary>
/// <param name="Name">Its short name.</param>
/// <param name="Title">What it is about.</param>
/// <param name="Why">What is done, and why.</param>
/// <param name="DoAsync">Does it; false where it was left.</param>
internal sealed record SetupStep(string Name, string Title, string Why, Func<Setup, Task<bool>> DoAsync);

/// <summary>
/// The steps of a setup in the order that is safe: nothing moves before the contacts are seen, no pen is lowered and nothing is measured before it references
/// well, and nothing is drawn before steps and play are known.
/// </summary>
internal static class SetupSteps
{
    public static IReadOnlyList<SetupStep> All { get; } =
    [
        new("contacts", "Contacts, motors off",
            "Each endstop is pressed by hand and has to be seen alone under its own name. The motors have no power: the carriage can be moved by hand.",
            ContactsStep.DoAsync),
        new("directions", "Directions, slowly, while you hold a key",
            "Each axis looks for its endstop at its reference speed for as long as you hold the space bar. Let it go and the motors are off at once.",
            DirectionsStep.DoAsync),
        new("references", "References",
            "The machine references six times, and tells how far its count was off each time.",
            ReferencesStep.DoAsync),
        new("pens", "Pens, held down",
            "Each pen is held down over the middle of the bed until you press a key, so that you can adjust its height. It goes up by itself after a minute.",
            PensStep.DoAsync),
        new("scale", "Steps for a mm",
            "The carriage goes from the first cell to the last, and you measure how far it went. Enter without a number leaves an axis as it is.",
            ScaleStep.DoAsync),
        new("backlash", "Play",
            "The carriage comes to one cell from below and from above, and you read where it stands. Enter without a number leaves an axis as it is.",
            BacklashStep.DoAsync),
        new("pattern", "A pattern to measure on",
            "The machine draws long lines along X and Y, a mark at the far corner and, with two heads, lines that they share. The next steps measure it.",
            PatternStep.DoAsync),
        new("offset", "Where head b is",
            "On the pattern, you read how far head b's half of a line lies to the side of head a's. Enter without a number leaves it as it is.",
            OffsetStep.DoAsync),
        new("square", "The angle between X and Y",
            "On the pattern, you measure the two diagonals: equal ones make a right angle. Enter without a number leaves it unmeasured.",
            SquareStep.DoAsync),
    ];

    public static IEnumerable<string> Names => All.Select(step => step.Name);
}

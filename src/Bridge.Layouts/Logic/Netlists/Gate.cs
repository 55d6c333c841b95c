namespace Bridge.Layouts;

/// <summary>What a gate is.</summary>
public enum GateKind
{
    /// <summary>Always 0.</summary>
    Zero,

    /// <summary>Always 1.</summary>
    One,

    /// <summary>1 where its input is 0.</summary>
    Not,

    /// <summary>1 where all its inputs are.</summary>
    And,

    /// <summary>1 where one of its inputs is.</summary>
    Or,

    /// <summary>1 where its two inputs differ.</summary>
    Xor,
}

/// <summary>One gate.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Output">The wire that it drives.</param>
/// <param name="Inputs">The wires that it reads.</param>
/// <param name="Section">The part of the controller that it belongs to.</param>
public sealed record Gate(GateKind Kind, int Output, IReadOnlyList<int> Inputs, string Section);

/// <summary>A flip-flop: takes its input over at each rising edge of the clock, and is 0 at first.</summary>
/// <param name="Output">The wire that it drives.</param>
/// <param name="Input">The wire that it reads.</param>
/// <param name="Section">The part of the controller that it belongs to.</param>
public sealed record FlipFlop(int Output, int Input, string Section);

/// <summary>A port of the whole: wires under one name, the lowest first.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Wires">Its wires, 1 and up.</param>
public sealed record Port(string Name, IReadOnlyList<int> Wires);

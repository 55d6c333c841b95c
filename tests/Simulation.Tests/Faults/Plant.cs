namespace Simulation.Tests;

/// <summary>A defect that is planted in the host, to see that it is caught.</summary>
internal enum Plant
{
    /// <summary>None.</summary>
    None,

    /// <summary>What the operator asks of a run does not come to it.</summary>
    RequestsAreLost,

    /// <summary>What is sent is called written in the journal, and is not.</summary>
    EntriesAreLost,
}

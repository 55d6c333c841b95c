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

    /// <summary>Where a machine holds, the journal is told of a cell less than was worked.</summary>
    ClaimsTooLittle,

    /// <summary>Where a machine holds, the journal is told of a cell more than was worked.</summary>
    ClaimsTooMuch,

    /// <summary>A machine that holds is let go on without the operator's word.</summary>
    GoesOnByItself,

    /// <summary>A run is gone on with one record behind the place that was chosen.</summary>
    ResumesTooFar,

    /// <summary>The same where nothing is in doubt, and it is called the place that was chosen: only the work shows it.</summary>
    LeavesOutARecord,

    /// <summary>Cells in doubt are left out where they were to be worked again.</summary>
    SkipsForRedo,

    /// <summary>A host that comes to a run that was begun refuses its journal.</summary>
    RefusesJournal,
}

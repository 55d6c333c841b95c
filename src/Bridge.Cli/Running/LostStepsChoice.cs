namespace Bridge.Cli;

/// <summary>Whether a machine references again after a complete run, to tell how many steps it lost: a motion that somebody has to want.</summary>
internal enum LostStepsChoice
{
    /// <summary>Whoever is at the terminal is asked after the run; where nobody is, it does not move.</summary>
    Ask,

    /// <summary>It does, without a question.</summary>
    Measure,

    /// <summary>It does not.</summary>
    Skip,
}

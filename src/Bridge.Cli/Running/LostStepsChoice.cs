namespace Bridge.Cli;

/// <summary>Whether a machine references again, after a complete run or in it, to tell how many steps it lost: a motion that somebody has to want.</summary>
internal enum LostStepsChoice
{
    /// <summary>Whoever is at the terminal is asked after the run; where nobody is, it does not move.</summary>
    Ask,

    /// <summary>After the run it does, without a question.</summary>
    Measure,

    /// <summary>It does at each change of layer too, where its way down is free.</summary>
    Layers,

    /// <summary>It does not.</summary>
    Skip,
}

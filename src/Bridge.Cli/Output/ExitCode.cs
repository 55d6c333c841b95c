namespace Bridge.Cli;

/// <summary>What the program tells the shell.</summary>
internal static class ExitCode
{
    public const int Done = 0;

    /// <summary>Something that was given is refused: a file, a job that is not proved, a shape that does not fit.</summary>
    public const int Refused = 1;

    /// <summary>The command line itself is wrong.</summary>
    public const int Usage = 2;

    /// <summary>The run was stopped in a controlled way, or ended at a change of layer: something is left of it.</summary>
    public const int Stopped = 3;

    /// <summary>The machine stopped at once, motors off.</summary>
    public const int Aborted = 4;

    /// <summary>The device refused, did not answer, or the line could not be opened or was lost.</summary>
    public const int Device = 5;

    /// <summary>The journal could not be written.</summary>
    public const int Journal = 6;

    /// <summary>A mistake in the program itself (EX_SOFTWARE of sysexits.h).</summary>
    public const int Bug = 70;
}

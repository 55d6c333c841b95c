namespace Bridge.Panel;

/// <summary>What a page shows of the machine at a moment; PANEL.md has the meaning of each.</summary>
public sealed record LiveView
{
    /// <summary>Counts the changes.</summary>
    public long Seq { get; init; }

    /// <summary>Who has the machine: nothing, run or hand.</summary>
    public string What { get; init; } = "nothing";

    /// <summary>The state by its standard name; empty where none is known.</summary>
    public string State { get; init; } = "";

    /// <summary>What the machine does in it.</summary>
    public string StateWords { get; init; } = "";

    /// <summary>emergency, abnormal, normal, action or neutral.</summary>
    public string Sign { get; init; } = "neutral";

    /// <summary>Why it is in that state, by its name.</summary>
    public string Cause { get; init; } = "";

    /// <summary>Why, in words; may be empty.</summary>
    public string CauseWords { get; init; } = "";

    /// <summary>What a person can do; may be empty.</summary>
    public string WhatToDo { get; init; } = "";

    /// <summary>The commands that can be given now.</summary>
    public IReadOnlyList<string> Accepts { get; init; } = [];

    /// <summary>The run that goes on, or was the last; null where none was.</summary>
    public RunView? Run { get; init; }

    /// <summary>The machine by hand; null where it is not.</summary>
    public HandView? Hand { get; init; }
}

/// <summary>The run that goes on, or was the last.</summary>
public sealed record RunView
{
    /// <summary>Its folder's name.</summary>
    public required string Name { get; init; }

    /// <summary>What executes it.</summary>
    public required string Device { get; init; }

    /// <summary>Whether that is the mock device.</summary>
    public required bool IsMock { get; init; }

    /// <summary>Whether its time passes at once.</summary>
    public required bool Fast { get; init; }

    /// <summary>The job that is run.</summary>
    public required string JobId { get; init; }

    /// <summary>Records done.</summary>
    public long Records { get; init; }

    /// <summary>Records of the whole run, each repeat counted.</summary>
    public required long RecordsInAll { get; init; }

    /// <summary>Cells worked, in the job's order.</summary>
    public long Cells { get; init; }

    /// <summary>Cells of the whole run.</summary>
    public required long CellsInAll { get; init; }

    /// <summary>The present layer, from 0.</summary>
    public int Layer { get; init; }

    /// <summary>The present cell along X.</summary>
    public int X { get; init; }

    /// <summary>The present cell along Y.</summary>
    public int Y { get; init; }

    /// <summary>The head of the present record: a or b.</summary>
    public string Head { get; init; } = "a";

    /// <summary>Whether the present record works cells, and is being done.</summary>
    public bool Working { get; init; }

    /// <summary>Seconds since it began.</summary>
    public double ElapsedSeconds { get; init; }

    /// <summary>Seconds that the rest takes, as predicted; null where that is not known.</summary>
    public double? SecondsLeft { get; init; }

    /// <summary>Seconds that all of it takes, as predicted.</summary>
    public required double PredictedSeconds { get; init; }

    /// <summary>The present record; null after the last.</summary>
    public RecordView? Record { get; init; }

    /// <summary>What the operator is asked to do before it goes on; null where nothing.</summary>
    public string? Prompt { get; init; }

    /// <summary>How it ended; null while it goes on.</summary>
    public EndView? End { get; init; }
}

/// <summary>How a run ended.</summary>
/// <param name="Outcome">In a word.</param>
/// <param name="Words">What happened, and what the machine is doing now.</param>
/// <param name="WhatToDo">What a person can do; may be empty.</param>
/// <param name="JobSeconds">Seconds from the job's start to the end, holds included; null where it did not start.</param>
/// <param name="Seal">The seal of its record; null where there is none.</param>
public sealed record EndView(string Outcome, string Words, string WhatToDo, double? JobSeconds, string? Seal);

/// <summary>The machine by hand.</summary>
/// <param name="Device">The device.</param>
/// <param name="IsMock">Whether it is the mock device.</param>
/// <param name="Inputs">Its contacts.</param>
/// <param name="Referenced">Its axes.</param>
public sealed record HandView(string Device, bool IsMock, InputsView Inputs, AxesView Referenced);

/// <summary>Contacts as the board sees them.</summary>
public sealed record InputsView(bool EStopOpen, bool EndstopX, bool EndstopY, bool EndstopZ, bool StartButton);

/// <summary>Which axes are referenced; z is null where there is none.</summary>
public sealed record AxesView(bool X, bool Y, bool? Z);

using Bridge.Jobs;
using Bridge.Runs;

namespace Bridge.Panel;

/// <summary>What the panel is for.</summary>
public sealed record PanelSetting
{
    /// <summary>The machine.</summary>
    public required Machine Machine { get; init; }

    /// <summary>The machine file's name, for refusals.</summary>
    public required string MachinePath { get; init; }

    /// <summary>The machine file.</summary>
    public required byte[] MachineBytes { get; init; }

    /// <summary>Where devices come from.</summary>
    public required IDevices Devices { get; init; }

    /// <summary>The folder of runs.</summary>
    public required string Runs { get; init; }

    /// <summary>A folder of example shapes; null for none.</summary>
    public string? Examples { get; init; }

    /// <summary>What is asked before a real machine moves.</summary>
    public Checklist Checklist { get; init; } = Checklist.Own;

    /// <summary>Dates and pauses.</summary>
    public required TimeProvider Time { get; init; }

    /// <summary>What a page beyond this computer gives for the key; null where none may come.</summary>
    public PassPhrase? PassPhrase { get; init; }
}

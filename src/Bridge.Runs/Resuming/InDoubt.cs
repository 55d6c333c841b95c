using System.Text.Json.Serialization;

namespace Bridge.Runs;

/// <summary>What becomes of the cells of which it is not known whether they were worked.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<InDoubt>))]
public enum InDoubt
{
    /// <summary>They are worked again.</summary>
    Redo,

    /// <summary>They are left as they are.</summary>
    Skip,
}

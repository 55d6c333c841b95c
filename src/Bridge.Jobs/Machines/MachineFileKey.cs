namespace Bridge.Jobs;

/// <summary>One key of a machine file, as documents and messages put it.</summary>
public abstract class MachineFileKey
{
    private protected MachineFileKey(string name, string allowed, string standard, string meaning) =>
        (Name, Allowed, Default, Meaning) = (name, allowed, standard, meaning);

    /// <summary>The key's name within its table.</summary>
    public string Name { get; }

    /// <summary>What may stand there, with its range and unit.</summary>
    public string Allowed { get; }

    /// <summary>What holds where the key is left out; begins with "required" where it may not be.</summary>
    public string Default { get; }

    /// <summary>What it says about the machine.</summary>
    public string Meaning { get; }
}

/// <summary>A key whose value has a type: one that must be given, or one with a default.</summary>
internal sealed class MachineFileKey<T> : MachineFileKey
{
    public MachineFileKey(string name, MachineFileValue<T> value, string meaning, string required = "required")
        : base(name, value.Allowed, required, meaning) => (Value, Required) = (value, true);

    public MachineFileKey(string name, MachineFileValue<T> value, T standard, string standardText, string meaning)
        : base(name, value.Allowed, standardText, meaning) => (Value, Standard) = (value, standard);

    public MachineFileValue<T> Value { get; }

    public bool Required { get; }

    public T? Standard { get; }
}

/// <summary>Tables of a machine file that hold the same keys.</summary>
/// <param name="Names">Their names, such as <c>axes.x</c>; empty for the keys above the first table.</param>
/// <param name="Keys">The keys that each may hold, at least one.</param>
public sealed record MachineFileTable(IReadOnlyList<string> Names, IReadOnlyList<MachineFileKey> Keys);

/// <summary>What was read at a key: good, or a mistake that has been noted.</summary>
internal readonly record struct MachineFileSetting<T>(bool Good, T Value, Tomlyn.Syntax.TextPosition At);

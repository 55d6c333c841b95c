namespace Bridge.Panel;

/// <summary>One thing at a time has the machine: a run, or a person's hand. May be asked from any thread.</summary>
public sealed class Occupancy
{
    private string? _by;

    /// <summary>What has the machine, in words such as "A run"; null for nothing.</summary>
    public string? By => Volatile.Read(ref _by);

    /// <summary>Takes the machine; false where something has it.</summary>
    public bool TryTake(string by) => Interlocked.CompareExchange(ref _by, by, null) is null;

    /// <summary>Leaves it to others.</summary>
    public void Leave() => Volatile.Write(ref _by, null);
}

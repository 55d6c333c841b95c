namespace Bridge.Runs;

/// <summary>What a machine tells when it references again after a run: whether it has lost steps on the way.</summary>
/// <param name="Lost">How far the count of each axis was off.</param>
/// <param name="Took">How long it took, all axes together.</param>
public sealed record ReferencedAgain(IReadOnlyList<LostSteps> Lost, TimeSpan Took)
{
    /// <summary>References a machine that has just ended its run, in a session of its own; null, and the hand has the words, where that fails.</summary>
    /// <param name="device">The device.</param>
    /// <param name="hand">The hand on it, which can be interrupted.</param>
    /// <param name="token">The session's, another than the run's.</param>
    public static async Task<ReferencedAgain?> FindAsync(DeviceDialogue device, MachineHand hand, ushort token)
    {
        if (await hand.ConnectAsync(token).ConfigureAwait(false) is null)
            return null;
        var start = device.Now;
        if (!await hand.ReferenceAsync().ConfigureAwait(false))
            return null;
        var took = device.Now - start;
        return await hand.LostStepsAsync().ConfigureAwait(false) is { } lost ? new ReferencedAgain(lost, took) : null;
    }
}

namespace Bridge.Runs;

/// <summary>What a run's procedure waits for before its next step.</summary>
/// <param name="Until">Whether it has come.</param>
/// <param name="AtMost">How long it may take; null for ever.</param>
/// <param name="OrElse">How the run ends when it takes longer.</param>
internal sealed record Wait(Func<bool> Until, TimeSpan? AtMost = null, Func<RunEnd>? OrElse = null);

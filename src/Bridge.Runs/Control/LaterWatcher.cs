namespace Bridge.Runs;

/// <summary>Passes on what a later stretch of a run tells, on the clock of the whole.</summary>
internal sealed class LaterWatcher(IRunWatcher whole, TimeSpan before) : IRunWatcher
{
    public void StateChanged(RunProgress progress) => whole.StateChanged(progress with { Elapsed = before + progress.Elapsed });

    public void Progressed(RunProgress progress) => whole.Progressed(progress with { Elapsed = before + progress.Elapsed });

    public void Told(string words) => whole.Told(words);
}

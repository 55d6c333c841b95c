using Bridge.Wire;

namespace Bridge.Runs.Tests;

/// <summary>A watcher that keeps what it saw and may act on it.</summary>
internal sealed class Onlooker : IRunWatcher
{
    public List<RunProgress> States { get; } = [];

    public List<RunProgress> Progress { get; } = [];

    public List<string> Words { get; } = [];

    public Action<MachineState>? OnState { get; set; }

    public TimeSpan TimeOf(MachineState state) => States.First(seen => seen.State == state).Elapsed;

    public void StateChanged(RunProgress progress)
    {
        States.Add(progress);
        OnState?.Invoke(progress.State);
    }

    public void Progressed(RunProgress progress) => Progress.Add(progress);

    public void Told(string words) => Words.Add(words);
}

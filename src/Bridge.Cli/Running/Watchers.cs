using Bridge.Runs;

namespace Bridge.Cli;

/// <summary>Several who watch one run.</summary>
internal sealed class Watchers(params IEnumerable<IRunWatcher?> each) : IRunWatcher
{
    private readonly IReadOnlyList<IRunWatcher> _each = [.. each.OfType<IRunWatcher>()];

    public void StateChanged(RunProgress progress)
    {
        foreach (var watcher in _each)
            watcher.StateChanged(progress);
    }

    public void Progressed(RunProgress progress)
    {
        foreach (var watcher in _each)
            watcher.Progressed(progress);
    }

    public void Told(string words)
    {
        foreach (var watcher in _each)
            watcher.Told(words);
    }
}

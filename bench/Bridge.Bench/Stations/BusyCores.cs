namespace Bridge.Bench;

/// <summary>A thread on each core that never rests, from a beginning to an end.</summary>
internal sealed class BusyCores : IDisposable
{
    private readonly ManualResetEventSlim _isBusy = new();
    private readonly List<Thread> _threads;
    private volatile bool _isOver;

    public BusyCores()
    {
        _threads = [.. Enumerable.Range(0, Environment.ProcessorCount).Select(_ => new Thread(Spin) { IsBackground = true })];
        _threads.ForEach(thread => thread.Start());
    }

    public void Begin() => _isBusy.Set();

    public void End() => _isBusy.Reset();

    public void Dispose()
    {
        _isOver = true;
        _isBusy.Set();
        _threads.ForEach(thread => thread.Join());
        _isBusy.Dispose();
    }

    private void Spin()
    {
        var number = 1u;
        while (!_isOver)
        {
            _isBusy.Wait();
            for (var turn = 0; turn < 1000; turn++)
                number = number * 1_664_525 + 1_013_904_223;
        }

        GC.KeepAlive(number);
    }
}

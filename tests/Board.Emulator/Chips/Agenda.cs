namespace Board.Emulator;

/// <summary>What is to be done at which cycle; things for the same cycle in the order in which they were asked for.</summary>
internal sealed class Agenda
{
    private readonly PriorityQueue<Action, (ulong Cycle, long Turn)> actions = new();
    private long turn;

    /// <summary>The cycle of the first thing to do, or null where there is none.</summary>
    public ulong? Next => actions.TryPeek(out _, out var when) ? when.Cycle : null;

    public void Add(ulong cycle, Action action) => actions.Enqueue(action, (cycle, turn++));

    /// <summary>Does all that is due.</summary>
    public void DoUntil(ulong cycle)
    {
        while (actions.TryPeek(out var action, out var when) && when.Cycle <= cycle)
        {
            actions.Dequeue();
            action();
        }
    }

    /// <summary>Remembers what is to be done; the action puts it back.</summary>
    public Action Save()
    {
        var saved = actions.UnorderedItems.ToArray();
        var savedTurn = turn;
        return () =>
        {
            actions.Clear();
            actions.EnqueueRange(saved);
            turn = savedTurn;
        };
    }

    public void Clear() => actions.Clear();
}

using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Panel;

/// <summary>What pages see of the machine: the last of it, and what was said lately. Written by who has the machine, read by every page.</summary>
public sealed class LiveBoard
{
    /// <summary>How much of what was said is kept.</summary>
    public const int MostTold = 200;

    private readonly Lock _door = new();
    private readonly Queue<(long Number, string Words)> _told = new();
    private Func<LiveView> _look = () => new LiveView();
    private LiveView? _view;
    private long _seq;
    private long _said;

    /// <summary>Counts the changes; another number means that there is something new to see.</summary>
    public long Seq => Interlocked.Read(ref _seq);

    /// <summary>What is to be seen now.</summary>
    public LiveView Present
    {
        get
        {
            lock (_door)
                return _view ??= _look() with { Seq = _seq };
        }
    }

    /// <summary>From here on another has the machine, and this is how it is looked at; asked for only when somebody looks, and never twice at once.</summary>
    public void Show(Func<LiveView> look)
    {
        lock (_door)
            _look = look;
        Changed();
    }

    /// <summary>There is something new.</summary>
    public void Changed()
    {
        lock (_door)
        {
            _seq++;
            _view = null;
        }
    }

    /// <summary>Tells every page.</summary>
    public void Tell(string words)
    {
        lock (_door)
        {
            _told.Enqueue((++_said, words));
            if (_told.Count > MostTold)
                _told.Dequeue();
        }
    }

    /// <summary>What was said after the sentence of a number, oldest first, with the number of each.</summary>
    public IReadOnlyList<(long Number, string Words)> ToldAfter(long number)
    {
        lock (_door)
            return _said == number ? [] : [.. _told.Where(sentence => sentence.Number > number)];
    }

    /// <summary>A view with the words of a state.</summary>
    internal static LiveView Of(string what, MachineState state, StateCause cause, IEnumerable<MachineCommand> accepts) => new()
    {
        What = what,
        State = state == MachineState.Undefined ? "" : $"{state}",
        StateWords = state == MachineState.Undefined ? "connecting" : StateWords.Of(state),
        Sign = $"{Signs.Of(state, cause)}".ToLowerInvariant(),
        Cause = cause == StateCause.None ? "" : $"{cause}",
        CauseWords = StateWords.Of(cause),
        WhatToDo = StateTable.IsActing(state) ? "" : StateWords.WhatToDo(cause),
        Accepts = [.. accepts.Select(command => $"{command}")],
    };
}

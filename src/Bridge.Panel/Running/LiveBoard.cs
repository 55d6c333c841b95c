using Bridge.Runs;
using Bridge.Wire;

namespace Bridge.Panel;

/// <summary>What pages see of the machine: the last of it, and what was said lately. Written by who has the machine, read by every page.</summary>
/// <param name="time">Tells when something was said.</param>
public sealed class LiveBoard(TimeProvider time)
{
    /// <summary>How much of what was said is kept.</summary>
    public const int MostTold = 200;

    private readonly Lock _door = new();
    private readonly Queue<ToldSentence> _told = new();
    private Func<LiveView> _look = () => new LiveView();
    private LiveView? _view;
    private TaskCompletionSource _change = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long _seq;
    private long _said;

    /// <summary>Counts the changes; another number means that there is something new to see.</summary>
    public long Seq => Interlocked.Read(ref _seq);

    /// <summary>Ends with the next change. Taken before <see cref="Seq"/> is looked at, it misses none.</summary>
    public Task NextChange
    {
        get
        {
            lock (_door)
                return _change.Task;
        }
    }

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
        TaskCompletionSource change;
        lock (_door)
        {
            _seq++;
            _view = null;
            (change, _change) = (_change, new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously));
        }

        change.SetResult();
    }

    /// <summary>Tells every page.</summary>
    public void Tell(string words)
    {
        lock (_door)
        {
            _told.Enqueue(new ToldSentence(++_said, words, time.GetUtcNow()));
            if (_told.Count > MostTold)
                _told.Dequeue();
        }
    }

    /// <summary>What was said after the sentence of a number, oldest first.</summary>
    public IReadOnlyList<ToldSentence> ToldAfter(long number)
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

/// <summary>Something that a person should know.</summary>
/// <param name="Number">Counts the sentences of this start.</param>
/// <param name="Words">What was said.</param>
/// <param name="At">When.</param>
public sealed record ToldSentence(long Number, string Words, DateTimeOffset At);

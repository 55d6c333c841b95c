namespace Bridge.Wire.Tests;

/// <summary>
/// Selective repeat over the same line, as an ideal one: the board keeps what comes too early and tells of all it has, in no more octets than a Status has
/// now; the host sends again what has demonstrably not come, and nothing else. Not the product's link: the other choice, to be measured beside it.
/// </summary>
/// <param name="window">Messages in flight, and kept by the board.</param>
/// <param name="delay">What the line adds to a round trip, half of it each way.</param>
/// <param name="errors">The chance that a frame is damaged, either way.</param>
/// <param name="pace">The board's.</param>
internal sealed class SelectiveTrial(int window, TimeSpan delay, double errors, BoardPace pace)
{
    private readonly SortedDictionary<long, long> _inFlight = []; // by number, the turn in which it was sent last
    private readonly TrialLine<Sent> _toBoard = new(delay / 2, errors, new Random(1));
    private readonly TrialLine<Had> _toHost = new(delay / 2, errors, new Random(2));
    private readonly int _length = (int)Math.Round(LinkTrial.Lengths.Message);
    private readonly SortedSet<long> _lost = [];
    private long _base;
    private long _next;
    private long _turn;

    // What is lost goes first, and nothing is handed to the line before it is free.
    private long? NextToSend => _lost.Count > 0 ? _lost.Min : _next < _base + window ? _next : null;

    /// <summary>The part of the line's capacity that brings messages on, framing counted: 1 is frames back to back and none damaged.</summary>
    public double Run(TimeSpan duration)
    {
        var board = new Board(_toBoard, _toHost, pace);
        var timeout = delay + TimeSpan.FromMilliseconds(20);
        var (now, advanced) = (TimeSpan.Zero, TimeSpan.Zero);
        while (now < duration)
        {
            if (now >= advanced + timeout)
                (_, advanced) = (_lost.Add(_base), now);
            if (_toBoard.Free <= now && NextToSend is { } number)
                Send(number, now);
            TimeSpan?[] events = [_toHost.Next, board.NextTurn, advanced + timeout, NextToSend is null ? null : _toBoard.Free];
            now = events.Min()!.Value;
            if (board.NextTurn <= now)
                board.Go(now);
            while (_toHost.TryTake(now, out var told))
                if (!told.IsDamaged && Hear(told.Content))
                    advanced = now;
        }

        return board.Expected * _length * TrialLine<Sent>.Octet / duration;
    }

    private void Send(long number, TimeSpan now)
    {
        _lost.Remove(number);
        _next = Math.Max(_next, number + 1);
        _inFlight[number] = ++_turn;
        _toBoard.Put(new Sent(number, _turn), _length, now);
    }

    /// <summary>True if the window has moved on. What has not come, and was sent before something that has, is lost: the line keeps order.</summary>
    private bool Hear(Had had)
    {
        var moved = had.Expected > _base;
        _base = Math.Max(_base, had.Expected);
        foreach (var number in _inFlight.Keys.Where(number => number < _base).Concat(had.Early).ToArray())
            if (_inFlight.Remove(number))
                _lost.Remove(number);
        _lost.UnionWith(_inFlight.Where(sent => sent.Value < had.LastTurn).Select(sent => sent.Key));
        return moved;
    }

    private readonly record struct Sent(long Number, long Turn);

    private sealed record Had(long Expected, long[] Early, long LastTurn);

    private sealed class Board(TrialLine<Sent> from, TrialLine<Had> to, BoardPace pace) : TrialBoard<Sent, Had>(from, to, pace)
    {
        private readonly HashSet<long> _early = [];
        private long _lastTurn;

        public long Expected { get; private set; }

        protected override void Hear(in TrialFrame<Sent> frame)
        {
            if (frame.IsDamaged)
                return;
            (IsDue, _lastTurn) = (true, frame.Content.Turn);
            if (frame.Content.Number >= Expected)
                _early.Add(frame.Content.Number);
            while (_early.Remove(Expected))
                Expected++;
        }

        protected override (Had Told, int Length) Tell() => (new Had(Expected, [.. _early], _lastTurn), LinkBoard.StatusLength);
    }
}

using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>An order of stops that is made better step by step: each step takes less time than before.</summary>
internal sealed class RouteOrder
{
    private const int LongestMoved = 3; // stops moved together
    private const int LongestTurned = 1000; // stops turned round together
    private const int LongestSwapped = 30; // stops of each part that a disturbance swaps
    private const double Least = 1e-6; // seconds

    private readonly StopChoice[][] _stops;
    private readonly int[][] _neighbours;
    private readonly int[] _place; // of each stop in the order
    private readonly Cell _entry;
    private bool _isRound; // whether the way from the last stop back to the first counts; the first one then stays the first
    private readonly IdleTimes _times;
    private readonly Effort _effort;
    private readonly Queue<int> _due = [];
    private readonly bool[] _isDue;

    /// <summary>Starts from an order and the way to work each stop, from a cell.</summary>
    public RouteOrder(StopChoice[][] stops, int[][] neighbours, int[] order, int[] ways, Cell entry, IdleTimes times, Effort effort)
    {
        (_stops, _neighbours, Order, Ways) = (stops, neighbours, order, ways);
        (_entry, _times, _effort) = (entry, times, effort);
        _place = new int[order.Length];
        _isDue = new bool[order.Length];
        for (var place = 0; place < order.Length; place++)
            _place[order[place]] = place;
    }

    /// <summary>The stops in order.</summary>
    public int[] Order { get; }

    /// <summary>The way in which each stop is worked.</summary>
    public int[] Ways { get; }

    /// <summary>Seconds that the order and the ways make a difference to.</summary>
    public double Seconds()
    {
        var seconds = 0.0;
        for (var place = 0; place <= Order.Length; place++)
            seconds += Between(place - 1, place) + (place < Order.Length ? _stops[Order[place]][Ways[Order[place]]].Seconds : 0);
        return seconds;
    }

    /// <summary>
    /// From now on the way back from the last stop to where the first one begins counts too. Of such a round it is only the way to it that
    /// depends on where it begins: it begins nearest to the entry. Gives the seconds of the whole.
    /// </summary>
    public double Close()
    {
        var first = Enumerable.Range(0, Order.Length).MinBy(place => Idle(_entry, In(place)));
        Put(0, [.. Order[first..], .. Order[..first]]);
        _isRound = true;
        return Seconds();
    }

    /// <summary>Takes another order and other ways of the same stops.</summary>
    public void Take(int[] order, int[] ways)
    {
        order.CopyTo(Order, 0);
        ways.CopyTo(Ways, 0);
        for (var place = 0; place < Order.Length; place++)
            _place[Order[place]] = place;
    }

    /// <summary>Makes it better until no step does.</summary>
    public void ImproveAll()
    {
        for (var place = 0; place < Order.Length; place++)
            MakeDue(place);
        ImproveDue();
    }

    /// <summary>Swaps neighbouring parts of the way by chance, makes the place better, and keeps what is then no worse.</summary>
    public void Disturb(int times, Random random)
    {
        var (order, ways) = (new int[Order.Length], new int[Order.Length]);
        for (; times > 0 && _effort.IsLeft && Order.Length >= 4; times--)
        {
            Order.CopyTo(order, 0);
            Ways.CopyTo(ways, 0);
            _effort.Spend(Order.Length);
            var change = Swap(random) + ImproveDue();
            if (change > 0)
                Take(order, ways);
        }
    }

    private double Swap(Random random)
    {
        var first = _isRound ? 1 + random.Next(Order.Length - 2) : random.Next(Order.Length - 1);
        var second = first + 1 + random.Next(Math.Min(LongestSwapped, Order.Length - 1 - first));
        var end = second + 1 + random.Next(Math.Min(LongestSwapped, Order.Length - second));
        var before = Between(first - 1, first) + Between(second - 1, second) + Between(end - 1, end);
        int[] swapped = [.. Order[second..end], .. Order[first..second]];
        Put(first, swapped);
        var middle = first + end - second;
        foreach (var place in new[] { first - 1, first, middle - 1, middle, end - 1, end })
            MakeDue(place);
        return Between(first - 1, first) + Between(middle - 1, middle) + Between(end - 1, end) - before;
    }

    private double ImproveDue()
    {
        var change = 0.0;
        while (_due.TryDequeue(out var stop))
        {
            _isDue[stop] = false;
            for (var step = Step(stop); step < 0 && _effort.IsLeft; step = Step(stop))
                change += step;
        }
        return change;
    }

    // The first step found that makes the way past a stop shorter; by how much, or 0.
    private double Step(int stop)
    {
        if (ChooseWay(_place[stop]) is < 0 and var chosen)
            return chosen;
        foreach (var neighbour in _neighbours[stop])
        {
            _effort.Spend(150);
            var (low, high) = _place[stop] < _place[neighbour] ? (_place[stop], _place[neighbour]) : (_place[neighbour], _place[stop]);
            if (Turn(low + 1, high) is < 0 and var after)
                return after;
            if (Turn(low, high - 1) is < 0 and var before)
                return before;
            for (var length = 1; length <= LongestMoved; length++)
                foreach (var first in length == 1 ? new[] { _place[stop] } : [_place[stop], _place[stop] - length + 1])
                    if (Move(first, first + length - 1, _place[neighbour]) is < 0 and var moved)
                        return moved;
        }
        return 0;
    }

    private double ChooseWay(int place)
    {
        var stop = Order[place];
        var (way, best) = (Ways[stop], WithWay(place, Ways[stop]) - Least);
        for (var other = 0; other < _stops[stop].Length; other++)
            if (WithWay(place, other) is var seconds && seconds < best)
                (way, best) = (other, seconds);
        if (way == Ways[stop])
            return 0;
        var change = best - WithWay(place, Ways[stop]);
        Ways[stop] = way;
        MakeDue(place - 1);
        MakeDue(place + 1);
        return change;
    }

    private double WithWay(int place, int way)
    {
        var stop = Order[place];
        var kept = Ways[stop];
        Ways[stop] = way;
        var seconds = Between(place - 1, place) + _stops[stop][way].Seconds + Between(place, place + 1);
        if (_isRound && place == 0 && Order.Length > 1)
            seconds += Between(Order.Length - 1, Order.Length);
        Ways[stop] = kept;
        return seconds;
    }

    private double Turn(int first, int last)
    {
        if (first > last || last - first > LongestTurned || IsFixed(first))
            return 0;
        var change = Idle(Out(first - 1), Out(last)) + Idle(In(first), In(last + 1)) - Between(first - 1, first) - Between(last, last + 1);
        if (change >= -Least)
            return 0;
        Put(first, Turned(first, last));
        MakeEndsDue(first, last);
        return change;
    }

    // Moves stops to right before or right after a place outside them, either way round.
    private double Move(int first, int last, int target)
    {
        if (first < 0 || IsFixed(first) || last >= Order.Length || (target >= first && target <= last) || Math.Abs(target - first) > LongestTurned)
            return 0;
        var gap = Between(first - 1, first) + Between(last, last + 1) - Idle(Out(first - 1), In(last + 1));
        foreach (var before in new[] { target, target + 1 }) // the stops come between before - 1 and before
        {
            if ((before >= first && before <= last + 1) || IsFixed(before))
                continue;
            var opened = Between(before - 1, before) + gap;
            var straight = Idle(Out(before - 1), In(first)) + Idle(Out(last), In(before)) - opened;
            var turned = Idle(Out(before - 1), Out(last)) + Idle(In(first), In(before)) - opened;
            if (Math.Min(straight, turned) >= -Least)
                continue;
            var moved = turned < straight ? Turned(first, last) : Order[first..(last + 1)];
            if (before < first)
                Put(before, [.. moved, .. Order[before..first]]);
            else
                Put(first, [.. Order[(last + 1)..before], .. moved]);
            MakeEndsDue(first, last);
            MakeEndsDue(before, before + moved.Length);
            MakeEndsDue(before - moved.Length, before);
            return Math.Min(straight, turned);
        }
        return 0;
    }

    private int[] Turned(int first, int last)
    {
        var turned = Order[first..(last + 1)];
        Array.Reverse(turned);
        foreach (var stop in turned)
            Ways[stop] ^= 1;
        return turned;
    }

    private void Put(int first, ReadOnlySpan<int> stops)
    {
        _effort.Spend(4 * stops.Length);
        for (var index = 0; index < stops.Length; index++)
            _place[Order[first + index] = stops[index]] = first + index;
    }

    private void MakeEndsDue(int first, int last)
    {
        foreach (var place in new[] { first - 1, first, last, last + 1 })
            MakeDue(place);
    }

    private void MakeDue(int place)
    {
        if (place < 0 || place >= Order.Length || _isDue[Order[place]])
            return;
        _isDue[Order[place]] = true;
        _due.Enqueue(Order[place]);
    }

    private bool IsFixed(int place) => _isRound && place == 0;

    private double Between(int place, int next) => Idle(Out(place), In(next));

    private Cell? In(int place) => place < Order.Length ? _stops[Order[place]][Ways[Order[place]]].Stroke.First : _isRound ? In(0) : null;

    private Cell? Out(int place) => place < 0 ? _entry : _stops[Order[place]][Ways[Order[place]]].Stroke.Last;

    private double Idle(Cell? from, Cell? to) => from is { } start && to is { } end ? _times.Between(start, end) : 0;
}

namespace Bridge.Planning;

/// <summary>The ways a frontier may look, each with the cheapest labelling that leads to it.</summary>
internal sealed class FrontierStates(int most)
{
    private const int OfferWorth = 3; // in eighths of a block: how much an open block is likely to save
    private const int WorthComparing = 24;

    private int[] _slots = new int[256]; // 1 + the state, by a hash of its key
    private State[] _states = new State[64];

    /// <summary>How many there are.</summary>
    public int Count { get; private set; }

    /// <summary>Whether some were given up, here or in those taken over.</summary>
    public bool IsCut { get; private set; }

    /// <summary>The state of the least cost.</summary>
    public int Cheapest => Enumerable.Range(0, Count).MinBy(state => _states[state].Cost);

    /// <summary>The least cost; the largest number there is where nothing is left.</summary>
    public int Least => Count == 0 ? int.MaxValue : _states[Cheapest].Cost;

    /// <summary>The frontier of a state.</summary>
    public Frontier Key(int state) => _states[state].Key;

    /// <summary>The cost of a state.</summary>
    public int Cost(int state) => _states[state].Cost;

    /// <summary>Where each state comes from.</summary>
    public (int Parent, CellLabel Label)[] Steps()
    {
        var steps = new (int, CellLabel)[Count];
        for (var state = 0; state < Count; state++)
            steps[state] = (_states[state].Parent, _states[state].Label);
        return steps;
    }

    /// <summary>Starts anew.</summary>
    public void Clear()
    {
        Array.Clear(_slots);
        (Count, IsCut) = (0, false);
    }

    /// <summary>Takes over all of another set, which becomes useless until it is cleared.</summary>
    public void Take(FrontierStates other)
    {
        (_states, other._states) = (other._states, _states);
        (_slots, other._slots) = (other._slots, _slots);
        Count = other.Count;
        IsCut |= other.IsCut;
    }

    /// <summary>Adds a way to get to a frontier; the cheaper one is kept, of equal ones either.</summary>
    public void Offer(Frontier key, int cost, int parent, CellLabel label, Random? random)
    {
        var slot = SlotOf(key);
        if (_slots[slot] is > 0 and var known)
        {
            ref var state = ref _states[known - 1];
            if (cost < state.Cost || (cost == state.Cost && random is not null && random.Next(2) == 0))
                state = new State(key, cost, parent, label);
            return;
        }
        if (Count == _states.Length)
            Array.Resize(ref _states, Math.Max(64, 2 * Count));
        _states[Count] = new State(key, cost, parent, label);
        _slots[slot] = ++Count;
        if (Count * 2 > _slots.Length)
            Grow();
    }

    /// <summary>Gives up the least promising of what is too many.</summary>
    public void Cut(Random? random)
    {
        if (Count <= most)
            return;
        IsCut = true;
        Keep(Ranked(random).AsSpan(0, most));
    }

    /// <summary>
    /// Drops what cannot lead to fewer blocks than another state does: one that is cheaper by at least the open blocks that
    /// it lacks. Each is held against the most promising ones.
    /// </summary>
    public void DropHopeless(Random? random)
    {
        if (Count < WorthComparing)
            return;
        var ranked = Ranked(random);
        var best = ranked.AsSpan(0, WorthComparing).ToArray();
        var kept = new List<int>();
        foreach (var state in ranked)
        {
            var isHopeless = false;
            foreach (var other in best)
                if (isHopeless = _states[state].Cost > _states[other].Cost
                    && _states[state].Cost - _states[other].Cost >= _states[state].Key.OffersNotIn(_states[other].Key))
                    break;
            if (!isHopeless)
                kept.Add(state);
        }
        Keep(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(kept));
    }

    // The most promising first; equal ones by chance.
    private int[] Ranked(Random? random)
    {
        var ranks = new long[Count];
        var ranked = new int[Count];
        for (var state = 0; state < Count; state++)
        {
            var rank = 8L * _states[state].Cost - OfferWorth * _states[state].Key.Offers();
            ranks[state] = rank << 32 | (uint)(random?.Next() ?? state);
            ranked[state] = state;
        }
        Array.Sort(ranks, ranked);
        return ranked;
    }

    // Their slots are not looked up again before the set is cleared.
    private void Keep(ReadOnlySpan<int> kept)
    {
        var states = new State[kept.Length];
        for (var state = 0; state < kept.Length; state++)
            states[state] = _states[kept[state]];
        (_states, Count) = (states, states.Length);
    }

    private void Grow()
    {
        _slots = new int[2 * _slots.Length];
        for (var state = 0; state < Count; state++)
            _slots[SlotOf(_states[state].Key)] = state + 1;
    }

    private int SlotOf(Frontier key)
    {
        var mask = _slots.Length - 1;
        var slot = (int)(key.Bits * 0x9E3779B97F4A7C15 >> 40) & mask;
        while (_slots[slot] is > 0 and var known && _states[known - 1].Key != key)
            slot = slot + 1 & mask;
        return slot;
    }

    private readonly record struct State(Frontier Key, int Cost, int Parent, CellLabel Label);
}
